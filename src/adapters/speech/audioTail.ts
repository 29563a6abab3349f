import { CHUNK_ms, type AudioChunk } from './audioSource.ts'

/** A new recognizer hears again at most this much of what the old one had not finished, ms. */
export const HEAR_AGAIN_ms = 1000
/** Look-ahead and batch of the model: speech this recent may not show in the text yet, ms. */
const UNSEEN_ms = 300
/** Enough to bridge a worker that has to be started again, ms. */
const KEPT_ms = 4000

/** The last few seconds of sound, kept only to be heard again by the next recognizer. */
export interface AudioTail {
  add(chunk: AudioChunk): void
  /** What was captured after this time, oldest first. */
  after(mono_ms: number): readonly AudioChunk[]
  clear(): void
}

export function audioTail(): AudioTail {
  let chunks: readonly AudioChunk[] = []
  return {
    add: (chunk) => {
      chunks = [...chunks.slice(1 - KEPT_ms / CHUNK_ms), chunk]
    },
    after: (mono_ms) => chunks.filter((chunk) => chunk.mono_ms > mono_ms),
    clear: () => {
      chunks = []
    },
  }
}

/**
 * Time after which the next recognizer hears.
 * @param unfinished what the old recognizer was given since its last final result, oldest first
 * @param heardPhrase the old one has made a phrase of it: then only the end is heard again, from the quietest piece on,
 * so that the phrase is not heard twice and a next one in the same breath not cut
 */
export function hearAgainAfter(unfinished: readonly AudioChunk[], heardPhrase: boolean): number {
  const last = unfinished.at(-1)
  if (!last) return -Infinity
  const from_ms = last.mono_ms - (heardPhrase ? UNSEEN_ms : HEAR_AGAIN_ms)
  const recent = unfinished.filter(({ mono_ms }) => mono_ms > from_ms)
  if (!heardPhrase) return (recent[0]?.mono_ms ?? last.mono_ms) - CHUNK_ms
  return recent.reduce((a, b) => (b.level_dBFS <= a.level_dBFS ? b : a), last).mono_ms
}
