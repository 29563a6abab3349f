import { allowScripts } from '../../src/adapters/page/allowScripts.ts'
import type { Hearing, SpeechState } from '../../src/ports/speech.ts'
import type { AudioSource, AudioTrouble } from '../../src/adapters/speech/vosk/audioSource.ts'
import { createFeedSource, type FeedSource } from '../../src/adapters/speech/vosk/feedSource.ts'
import { createMicrophoneSource } from '../../src/adapters/speech/vosk/microphoneSource.ts'
import { createSystemClock } from '../../src/adapters/time/systemClock.ts'
import { createVoskSpeech, type VoskSpeech } from '../../src/adapters/speech/vosk/voskSpeech.ts'

// The page has the app's own policy, which lets no worker start that is not named.
allowScripts(window, new URL('/', location.href).href)

/** What the tests do with the recognizer inside the browser's page. */
export interface VoskPage {
  open(options: { modelUrl: string; sha256?: string; loadTimeout_ms?: number }): void
  /** The same with what `getUserMedia` gives as its source. */
  openMicrophone(options: { modelUrl: string; sha256?: string }): void
  /** The browser holds the sound of the page back. */
  suspend(): Promise<void>
  /** Resolves with how long it took, ms. */
  start(): Promise<number>
  stop(): Promise<void>
  setPhrases(phrases: readonly string[]): void
  /** Feeds sound as fast as it is heard, or at the pace of speech; 16-bit samples in base64. */
  feed(base64: string, pace: 'fast' | 'real'): Promise<void>
  feedAgain(times: number): Promise<void>
  /** Opens these phrases a quarter of a second after that text was first heard, as the app does after acting on it. */
  changeAfter(text: string, phrases: readonly string[]): void
  fail(trouble: AudioTrouble | undefined): void
  killWorker(): void
  silenceWorker(): void
  workers(): number
  /** Hears and states since the last call. */
  take(): { readonly hearings: readonly Hearing[]; readonly states: readonly SpeechState[] }
  hearings(): readonly Hearing[]
  states(): readonly (SpeechState & { readonly at_ms: number })[]
  levels(): readonly number[]
}

const clock = createSystemClock('test')
const workers: Worker[] = []
const PlainWorker = Worker
window.Worker = class extends PlainWorker {
  constructor(url: string | URL, options?: WorkerOptions) {
    super(url, options)
    workers.push(this)
  }
}

const contexts: AudioContext[] = []
const PlainContext = AudioContext
window.AudioContext = class extends PlainContext {
  constructor(options?: AudioContextOptions) {
    super(options)
    contexts.push(this)
  }
}

let speech: VoskSpeech
let source: FeedSource
let hearings: Hearing[] = []
let states: (SpeechState & { at_ms: number })[] = []
let levels: number[] = []
let last = new Float32Array(0)
let audio_ms = 0
let change: { text: string; phrases: readonly string[]; at_ms: number } | undefined

async function feedSamples(samples: Float32Array, pace: 'fast' | 'real'): Promise<void> {
  for (let from = 0; from < samples.length; from += 1600) {
    // Fast feeding runs ahead of the clock; time must not go back when the pace becomes real.
    audio_ms = Math.max(audio_ms + 100, pace === 'real' ? performance.now() : 0)
    source.push(samples.subarray(from, from + 1600), audio_ms)
    if (change) {
      await speech.settled()
      if (audio_ms >= change.at_ms) {
        speech.setPhrases(change.phrases)
        change = undefined
      }
    }
    if (pace === 'real') await new Promise((resolve) => setTimeout(resolve, 100))
    else if ((from / 1600) % 10 === 9) await speech.settled()
  }
  await speech.settled()
}

function open(options: Parameters<VoskPage['open']>[0], from: AudioSource): void {
  hearings = []
  states = []
  levels = []
  audio_ms = performance.now()
  speech = createVoskSpeech({
    ...options,
    workerUrl: new URL('/vosk/vosk.worker.js', location.href).href,
    wasmUrl: new URL('/vosk/vosk.wasm', location.href).href,
    source: from,
    clock,
  })
  speech.onHearing((hearing) => {
    hearings.push(hearing)
    if (change?.text === hearing.text && change.at_ms === Infinity) {
      change.at_ms = hearing.mono_ms + 240
    }
  })
  speech.onState((state) => states.push({ ...state, at_ms: performance.now() }))
  speech.onLevel((level) => levels.push(level))
}

const page: VoskPage = {
  open(options) {
    source = createFeedSource()
    open(options, source)
  },
  openMicrophone: (options) =>
    open(
      options,
      createMicrophoneSource(new URL('/audio/capture.worklet.js', location.href).href, clock),
    ),
  suspend: async () => contexts.at(-1)?.suspend(),
  async start() {
    const begun = performance.now()
    await speech.start()
    return performance.now() - begun
  },
  stop: () => speech.stop(),
  setPhrases: (phrases) => speech.setPhrases(phrases),
  async feed(base64, pace) {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))
    last = Float32Array.from(new Int16Array(bytes.buffer), (sample) => sample / 32768)
    await feedSamples(last, pace)
  },
  async feedAgain(times) {
    for (let i = 0; i < times; i++) await feedSamples(last, 'fast')
  },
  changeAfter(text, phrases) {
    change = { text, phrases, at_ms: Infinity }
  },
  fail: (trouble) => source.fail(trouble),
  killWorker: () => workers.at(-1)?.terminate(),
  silenceWorker() {
    const worker = workers.at(-1)
    if (worker) worker.postMessage = () => undefined
  },
  workers: () => workers.length,
  take() {
    const taken = { hearings, states }
    hearings = []
    states = []
    return taken
  },
  hearings: () => hearings,
  states: () => states,
  levels: () => levels,
}

;(window as Window & { vosk?: VoskPage }).vosk = page
