/** Runs in Chromium: the app's own recognizer and rules, or the plain engine, on tracks that the command serves. */
import { allowScripts } from '../../src/adapters/page/allowScripts.ts'
import { VoskClient } from 'vosk-browser'
import { CHUNK_ms, CHUNK_SAMPLES, RATE_Hz } from '../../src/adapters/speech/vosk/audioSource.ts'
import { createFeedSource } from '../../src/adapters/speech/vosk/feedSource.ts'
import { createVoskSpeech } from '../../src/adapters/speech/vosk/voskSpeech.ts'
import type { CommandKey } from '../../src/core/protocol/commands.ts'
import { createSimulatedClock } from '../../src/adapters/time/simulatedClock.ts'
import { createSystemClock } from '../../src/adapters/time/systemClock.ts'
import { createPhraseEar } from '../../src/app/voice/phraseEar.ts'
import type { HearOutcome } from '../../src/core/voice/hearing.ts'
import { readListeningLimits } from '../../src/app/site/listeningLimits.ts'
import { drawRules, type HearRules } from '../../src/core/voice/hearRules.ts'
import limits from '../../src/data/listening.json' with { type: 'json' }
import type { SpeechState } from '../../src/ports/speech.ts'

// The page has the app's own policy, which lets no worker start that is not named.
allowScripts(window, new URL('/', location.href).href)

/** As a draw listens. */
const DRAW_RULES = drawRules(readListeningLimits(limits))

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

const source = createFeedSource()
const system = createSystemClock('measure')
const states: SpeechState[] = []
let speech: ReturnType<typeof createVoskSpeech> | undefined

async function load(model: { readonly file: string; readonly sha256?: string }) {
  speech = createVoskSpeech({ ...urls(model), source, clock: system })
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
  const loaded = speech
  if (!loaded) throw new Error('The recognizer is not loaded.')
  /** Audio time: when fast it moves on with each chunk that was answered. */
  const fast = createSimulatedClock(system.read())
  const clock = options.fast ? fast : system
  const now = (): number => clock.read().mono_ms
  let outcomes: { outcome: HearOutcome; at_ms: number }[] = []
  let finals: string[] = []
  const ear = createPhraseEar({
    speech: loaded,
    clock,
    actAtOnce: options.actAtOnce,
    rules: { ...DRAW_RULES, ...options.rules },
    onOutcome: (outcome, audio_ms) =>
      outcomes.push({ outcome, at_ms: options.fast ? audio_ms : now() }),
  })
  const end = loaded.onHearing(({ final, text }) => {
    if (final && text) finals.push(text)
  })

  const tracks: TrackResult[] = []
  const began_ms = performance.now()
  let total_ms = 0
  for (const { path, open } of jobs) {
    const samples = await samplesOf(path)
    ear.open(new Map(open) as ReadonlyMap<string, CommandKey>)
    outcomes = []
    finals = []
    const start_ms = now()
    for (let at = 0, nth = 1; at < samples.length; at += CHUNK_SAMPLES, nth++) {
      const due_ms = start_ms + nth * CHUNK_ms
      if (!options.fast) await until(due_ms)
      source.push(samples.subarray(at, at + CHUNK_SAMPLES), due_ms)
      if (options.fast) {
        await loaded.settled()
        fast.advance(due_ms - now())
      }
    }
    await loaded.settled()
    total_ms += (samples.length / CHUNK_SAMPLES) * CHUNK_ms
    tracks.push({ acts: actsOf(outcomes, start_ms), finals })
  }
  end()
  ear.end()
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
  const recognizer = new client.KaldiRecognizer(RATE_Hz, JSON.stringify([...keyOf.keys(), '[unk]']))
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
    for (let at = 0, nth = 1; at < samples.length; at += CHUNK_SAMPLES, nth++) {
      if (!options.fast) await until(start_ms + nth * CHUNK_ms)
      owed += 1
      recognizer.acceptWaveformFloat(samples.subarray(at, at + CHUNK_SAMPLES), RATE_Hz)
      audio_ms += CHUNK_ms
      if (options.fast) await settled()
    }
    await settled()
    total_ms += (samples.length / CHUNK_SAMPLES) * CHUNK_ms
    tracks.push({ acts, finals })
  }
  client.terminate()
  return { tracks, wall_ms: performance.now() - began_ms, audio_ms: total_ms, states: [] }
}

const api = { load, run, runStock }
export type MeasureApi = typeof api
;(window as unknown as { stillhandMeasure: MeasureApi }).stillhandMeasure = api
