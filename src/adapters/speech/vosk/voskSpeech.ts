import type { KaldiRecognizer, RecognizerMessage, VoskClient } from 'vosk-browser'
import type { Hearing, Speech, SpeechState } from '../../../ports/speech.ts'
import { RATE_Hz, type AudioSource } from './audioSource.ts'
import { killWorker, loadModel, ModelTrouble, workerOf, type ModelPlace } from './loadModel.ts'
import { roomLevel } from './roomLevel.ts'

export interface VoskOptions extends ModelPlace {
  readonly source: AudioSource
  readonly now: () => number
  /** Sound flows and the engine says nothing for this long: it is dead and is started anew. */
  readonly watchdog_ms?: number
}

/** A room whose quietest moments are louder than this drowns speech; it must fall a little lower to be well again. */
const TOO_LOUD_dBFS = -28
const QUIET_AGAIN_dBFS = -32
const WATCHDOG_ms = 1800
/** How long an old recognizer may wait for the end of the utterance it began with. */
const FADE_ms = 900

interface Running {
  readonly recognizer: KaldiRecognizer
  utterance: number
}

/** The recognizer in the browser. Nothing it hears is stored or sent. */
export function voskSpeech(options: VoskOptions): Speech {
  const hearings = new Set<(hearing: Hearing) => void>()
  const states = new Set<(state: SpeechState) => void>()
  const levels = new Set<(level: number) => void>()
  const room = roomLevel()
  let state: SpeechState = { kind: 'off' }
  let phrases: readonly string[] = []
  let client: VoskClient | undefined
  let running: Running | undefined
  const fading = new Set<Running>()
  let utterance = 1
  let lastEvent_ms = 0
  let captured_ms = 0
  let wanted = false
  let release: (() => void) | undefined

  const tell = (next: SpeechState): void => {
    if (next.kind === state.kind && next.kind !== 'trouble') return
    state = next
    states.forEach((listen) => listen(next))
  }
  const trouble = (code: ModelTrouble['code'], message: string): void =>
    tell({ kind: 'trouble', code, message })

  function deliver(from: Running, message: RecognizerMessage): void {
    lastEvent_ms = options.now()
    if (message.event === 'error') return
    const final = message.event === 'result'
    const text = final ? message.result.text : message.result.partial
    const hearing: Hearing = {
      text,
      final,
      utterance: from.utterance,
      mono_ms: captured_ms,
      level_dB: room.speech_dB(),
    }
    if (final && from === running) from.utterance = ++utterance
    hearings.forEach((listen) => listen(hearing))
  }

  function open(): void {
    const old = running
    running = undefined
    if (client && phrases.length > 0) {
      const recognizer = new client.KaldiRecognizer(RATE_Hz, JSON.stringify([...phrases, '[unk]']))
      const next: Running = { recognizer, utterance: ++utterance }
      // Words stay off: with them on, partial results come after the end of speech instead of before it.
      recognizer.on('partialresult', (message) => deliver(next, message))
      recognizer.on('result', (message) => deliver(next, message))
      running = next
    }
    if (old) fade(old)
  }

  /**
   * An old recognizer hears on until its own final result, so that this is of the whole utterance and can still
   * contradict what was acted on early; then it goes. The last words are lost unless they are asked for first.
   */
  function fade(old: Running): void {
    const end = (): void => {
      clearTimeout(timer)
      fading.delete(old)
      old.recognizer.remove()
    }
    const timer = setTimeout(() => {
      fading.delete(old)
      setTimeout(end, 500)
      old.recognizer.retrieveFinalResult()
    }, FADE_ms)
    fading.add(old)
    old.recognizer.on('result', () => queueMicrotask(end))
  }

  function onChunk(samples: Float32Array, mono_ms: number): void {
    captured_ms = mono_ms
    room.add(samples)
    levels.forEach((listen) => listen(room.meter()))
    watchRoom()
    for (const old of fading) old.recognizer.acceptWaveformFloat(samples, RATE_Hz)
    if (!running) return
    running.recognizer.acceptWaveformFloat(samples, RATE_Hz)
    if (options.now() - lastEvent_ms > (options.watchdog_ms ?? WATCHDOG_ms)) void revive()
  }

  function watchRoom(): void {
    const loud = state.kind === 'trouble' && state.code === 'tooLoud'
    if (!loud && state.kind === 'listening' && room.room_dBFS() > TOO_LOUD_dBFS) {
      trouble('tooLoud', 'The room is too loud.')
    } else if (loud && room.room_dBFS() < QUIET_AGAIN_dBFS) tell({ kind: 'listening' })
  }

  async function load(): Promise<boolean> {
    try {
      client = await loadModel(options)
      workerOf(client).addEventListener('error', () => void revive())
      lastEvent_ms = options.now()
      open()
      return true
    } catch (error) {
      const known = error instanceof ModelTrouble
      trouble(
        known ? error.code : 'loadFailed',
        error instanceof Error ? error.message : String(error),
      )
      return false
    }
  }

  let reviving = false
  async function revive(): Promise<void> {
    if (reviving || !wanted || !client) return
    reviving = true
    trouble('workerDied', 'The recognizer stopped.')
    killWorker(client)
    client = undefined
    running = undefined
    fading.clear()
    if (await load()) tell({ kind: 'listening' })
    reviving = false
  }

  /** Two pages would write the engine's one database at the same time. */
  async function alone(): Promise<boolean> {
    if (!('locks' in navigator)) return true
    return new Promise((resolve) => {
      void navigator.locks.request('stillhand-recognizer', { ifAvailable: true }, (lock) => {
        resolve(lock !== null)
        return lock ? new Promise<void>((done) => (release = done)) : undefined
      })
    })
  }

  return {
    async start() {
      if (wanted) return
      wanted = true
      tell({ kind: 'loading' })
      if (!(await alone())) {
        wanted = false
        trouble('loadFailed', 'Another page of this app is listening already. Close it first.')
        return
      }
      let ill = false
      await options.source.start({
        onChunk,
        onTrouble: (code, message) => {
          ill = true
          trouble(code, message)
        },
        onWell: () => {
          ill = false
          if (client) tell({ kind: 'listening' })
        },
      })
      if ((await load()) && !ill) tell({ kind: 'listening' })
    },
    async stop() {
      wanted = false
      await options.source.stop()
      if (client) killWorker(client)
      client = undefined
      running = undefined
      release?.()
      release = undefined
      tell({ kind: 'off' })
    },
    setPhrases(next) {
      if (
        next.length === phrases.length &&
        next.every((phrase, index) => phrase === phrases[index])
      )
        return
      phrases = next
      open()
    },
    onHearing: (listener) => subscribe(hearings, listener),
    onState: (listener) => subscribe(states, listener),
    onLevel: (listener) => subscribe(levels, listener),
  }
}

function subscribe<T>(listeners: Set<T>, listener: T): () => void {
  listeners.add(listener)
  return () => void listeners.delete(listener)
}
