/** Runs in Chromium: the app's own recognizer and rules, or the plain engine, on tracks that the command serves. */
import { VoskClient } from 'vosk-browser'
import { feedSource } from '../../src/adapters/speech/vosk/feedSource.ts'
import { createVoskSpeech } from '../../src/adapters/speech/vosk/voskSpeech.ts'
import type { CommandKey } from '../../src/core/protocol/commands.ts'
import { hear, holdOver } from '../../src/core/voice/hear.ts'
import { HEAR_START, type HearContext, type HearOutcome, type HearState, type HearStep } from '../../src/core/voice/hearing.ts' // prettier-ignore
import { HEAR_RULES, type HearRules } from '../../src/core/voice/hearRules.ts'
import type { SpeechState } from '../../src/ports/speech.ts'

const PIECE = 1600
const PIECE_ms = 100

export interface TrackJob {
  /** Path of the track: 16-bit samples. */
  readonly path: string
  readonly open: readonly (readonly [phrase: string, key: string])[]
}

export interface TrackResult {
  /** `at_ms` from the start of the track: real time, or audio time when fast. */
  readonly acts: readonly {
    readonly key: string
    readonly phrase: string
    readonly at_ms: number
    readonly takenBack: boolean
  }[]
  /** What the engine wrote in its final results. */
  readonly finals: readonly string[]
}

export interface RunResult {
  readonly tracks: readonly TrackResult[]
  readonly wall_ms: number
  readonly audio_ms: number
  readonly states: readonly SpeechState[]
}

const urls = (model: { readonly file: string; readonly sha256?: string }) => ({
  modelUrl: `${location.origin}/models/${model.file}`,
  workerUrl: `${location.origin}/vosk/vosk.worker.js`,
  wasmUrl: `${location.origin}/vosk/vosk.wasm`,
  ...(model.sha256 === undefined ? {} : { sha256: model.sha256 }),
})

async function samplesOf(path: string): Promise<Float32Array> {
  const response = await fetch(path)
  return Float32Array.from(new Int16Array(await response.arrayBuffer()), (value) => value / 32_768)
}

const until = (due_ms: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, Math.max(0, due_ms - performance.now())))

const source = feedSource()
const states: SpeechState[] = []
let speech: ReturnType<typeof createVoskSpeech> | undefined

async function load(model: { readonly file: string; readonly sha256?: string }) {
  speech = createVoskSpeech({ ...urls(model), source, now: () => performance.now() })
  speech.onState((state) => states.push(state))
  const start_ms = performance.now()
  await speech.start()
  return { ms: performance.now() - start_ms, state: states.at(-1) }
}

async function run(
  jobs: readonly TrackJob[],
  options: {
    readonly fast: boolean
    readonly actAtOnce: readonly string[]
    readonly rules?: Partial<HearRules>
  },
): Promise<RunResult> {
  const ears = speech
  if (!ears) throw new Error('The recognizer is not loaded.')
  const actAtOnce = new Set(options.actAtOnce)
  const rules = { ...HEAR_RULES, ...options.rules }
  let state: HearState = HEAR_START
  let context: HearContext = { open: new Map(), actAtOnce, speaking: false }
  let audio_ms = performance.now()
  let hold: ReturnType<typeof setTimeout> | undefined
  let outcomes: { outcome: HearOutcome; at_ms: number }[] = []

  const now = (): number => (options.fast ? audio_ms : performance.now())
  const follow = (step: HearStep, at_ms: number): void => {
    state = step.state
    clearTimeout(hold)
    if (state.hold && !options.fast)
      hold = setTimeout(onHold, Math.max(0, state.hold.until_ms - performance.now()))
    if (step.outcome) outcomes.push({ outcome: step.outcome, at_ms })
  }
  const onHold = (): void => follow(holdOver(state, now(), context, rules), now())
  let finals: string[] = []
  const end = ears.onHearing((heard) => {
    if (heard.final && heard.text) finals.push(heard.text)
    follow(hear(state, heard, context, rules), options.fast ? heard.mono_ms : now())
  })

  const tracks: TrackResult[] = []
  const began_ms = performance.now()
  let total_ms = 0
  for (const { path, open } of jobs) {
    const samples = await samplesOf(path)
    context = { ...context, open: new Map(open) as ReadonlyMap<string, CommandKey> }
    ears.setPhrases([...context.open.keys()])
    outcomes = []
    finals = []
    const start_ms = now()
    for (let at = 0, piece = 1; at < samples.length; at += PIECE, piece++) {
      const due_ms = start_ms + piece * PIECE_ms
      if (!options.fast) await until(due_ms)
      source.push(samples.subarray(at, at + PIECE), due_ms)
      audio_ms = due_ms
      if (options.fast) {
        await ears.settled()
        if (state.hold && state.hold.until_ms <= audio_ms)
          follow(holdOver(state, audio_ms, context, rules), state.hold.until_ms)
      }
    }
    await ears.settled()
    total_ms += (samples.length / PIECE) * PIECE_ms
    tracks.push({ acts: actsOf(outcomes, start_ms), finals })
  }
  end()
  clearTimeout(hold)
  return { tracks, wall_ms: performance.now() - began_ms, audio_ms: total_ms, states }
}

function actsOf(
  outcomes: readonly { readonly outcome: HearOutcome; readonly at_ms: number }[],
  start_ms: number,
): TrackResult['acts'] {
  const acts: { key: string; phrase: string; at_ms: number; takenBack: boolean }[] = []
  for (const { outcome, at_ms } of outcomes) {
    if (outcome.kind === 'accept')
      acts.push({
        key: outcome.key,
        phrase: outcome.phrase,
        at_ms: at_ms - start_ms,
        takenBack: false,
      })
    const undone =
      outcome.kind === 'undo' ? acts.findLast(({ key }) => key === outcome.key) : undefined
    if (undone) undone.takenBack = true
  }
  return acts
}

/** The engine as its own example uses it: every phrase open, the final result acts when it is a phrase word for word. */
async function runStock(
  jobs: readonly TrackJob[],
  options: {
    readonly fast: boolean
    readonly phrases: readonly (readonly [phrase: string, key: string])[]
    readonly model: { readonly file: string }
  },
): Promise<RunResult> {
  const client = new VoskClient({ ...urls(options.model), logLevel: -2 })
  await new Promise<void>((resolve, reject) => {
    client.on('load', () => resolve())
    client.on('error', () => reject(new Error('The model cannot be loaded.')))
  })
  const keyOf = new Map(options.phrases)
  const recognizer = new client.KaldiRecognizer(16_000, JSON.stringify([...keyOf.keys(), '[unk]']))
  let acts: { key: string; phrase: string; at_ms: number; takenBack: boolean }[] = []
  let finals: string[] = []
  let start_ms = 0
  let audio_ms = 0
  let owed = 0
  const answered = (): void => void (owed -= 1)
  recognizer.on('partialresult', answered)
  recognizer.on('result', (message) => {
    answered()
    const text = message.event === 'result' ? message.result.text : ''
    if (text) finals.push(text)
    const key = keyOf.get(text)
    const at_ms = options.fast ? audio_ms : performance.now()
    if (key !== undefined)
      acts.push({ key, phrase: text, at_ms: at_ms - start_ms, takenBack: false })
  })
  const settled = async (): Promise<void> => {
    while (owed > 0) await new Promise((resolve) => setTimeout(resolve, 2))
  }
  const tracks: TrackResult[] = []
  const began_ms = performance.now()
  let total_ms = 0
  for (const { path } of jobs) {
    const samples = await samplesOf(path)
    acts = []
    finals = []
    start_ms = options.fast ? audio_ms : performance.now()
    for (let at = 0, piece = 1; at < samples.length; at += PIECE, piece++) {
      if (!options.fast) await until(start_ms + piece * PIECE_ms)
      owed += 1
      recognizer.acceptWaveformFloat(samples.subarray(at, at + PIECE), 16_000)
      audio_ms += PIECE_ms
      if (options.fast) await settled()
    }
    await settled()
    total_ms += (samples.length / PIECE) * PIECE_ms
    tracks.push({ acts, finals })
  }
  client.terminate()
  return { tracks, wall_ms: performance.now() - began_ms, audio_ms: total_ms, states: [] }
}

const api = { load, run, runStock }
export type MeasureApi = typeof api
;(window as unknown as { stillhandMeasure: MeasureApi }).stillhandMeasure = api
