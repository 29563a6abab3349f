import type { SpeechTrouble } from '../../../ports/speech.ts'

/** The recognizer's pace, samples a second. */
export const RATE_Hz = 16_000

export interface AudioListener {
  /** 100 ms of sound, floats in -1..1, captured until about `mono_ms`. */
  onChunk(samples: Float32Array, mono_ms: number): void
  onTrouble(code: SpeechTrouble, message: string): void
  /** What was wrong is right again. */
  onWell(): void
}

/** Where the sound comes from: a microphone, or recordings when measuring. */
export interface AudioSource {
  /** Resolves when sound flows or trouble has been reported. */
  start(listener: AudioListener): Promise<void>
  stop(): Promise<void>
}

/** A source that is fed by hand, for tests and measuring. */
export interface FeedSource extends AudioSource {
  feed(samples: Float32Array, mono_ms: number): void
}

export function feedSource(): FeedSource {
  let listener: AudioListener | undefined
  return {
    start: (next) => {
      listener = next
      return Promise.resolve()
    },
    stop: () => {
      listener = undefined
      return Promise.resolve()
    },
    feed: (samples, mono_ms) => listener?.onChunk(samples, mono_ms),
  }
}
