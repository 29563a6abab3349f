import {
  CHUNK_ms,
  CHUNK_SAMPLES,
  levelOf,
  type AudioObserver,
  type AudioSource,
  type AudioTrouble,
} from './audioSource.ts'

/** A source that is pushed from outside: recordings, tests, measurements. */
export interface FeedSource extends AudioSource {
  /**
   * Hands over 16 kHz samples that were all captured by `mono_ms`; what does not fill a chunk waits for the next push.
   */
  push(samples: Float32Array, mono_ms: number): void
  /** Acts as if the microphone had this trouble; `undefined` ends it. */
  fail(trouble: AudioTrouble | undefined): void
}

export function createFeedSource(): FeedSource {
  let observer: AudioObserver | undefined
  let rest = new Float32Array(0)
  return {
    start: (next) => {
      observer = next
      return Promise.resolve()
    },
    stop: () => {
      observer = undefined
      rest = new Float32Array(0)
      return Promise.resolve()
    },
    push(samples, mono_ms) {
      const all = new Float32Array(rest.length + samples.length)
      all.set(rest)
      all.set(samples, rest.length)
      const whole = Math.floor(all.length / CHUNK_SAMPLES)
      rest = all.slice(whole * CHUNK_SAMPLES)
      const rest_ms = (rest.length / CHUNK_SAMPLES) * CHUNK_ms
      for (let i = 0; i < whole; i++) {
        const chunk = all.slice(i * CHUNK_SAMPLES, (i + 1) * CHUNK_SAMPLES)
        const later_ms = (whole - 1 - i) * CHUNK_ms + rest_ms
        observer?.onChunk({
          samples: chunk,
          level_dBFS: levelOf(chunk),
          mono_ms: mono_ms - later_ms,
        })
      }
    },
    fail: (trouble) => observer?.onTrouble(trouble),
  }
}
