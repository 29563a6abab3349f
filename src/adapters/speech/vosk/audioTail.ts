import { CHUNK_ms, type AudioChunk } from './audioSource.ts'
import type { SpeechSegment } from './speechSegment.ts'

/** A new recognizer hears again at most this much of what the old one had not made out, ms. */
const HEAR_AGAIN_ms = 1000
/** Look-ahead and batch of the model: speech this recent may not show in the text yet, ms. */
const UNSEEN_ms = 300
/** Enough to bridge a worker that has to be started again, also on a slow or busy machine, ms. */
const KEPT_ms = 10_000

/** With what was measured at its end of the speech that it ends in, or follows. */
export interface MeasuredChunk extends AudioChunk, Partial<SpeechSegment> {
  /** Loudness of the speech above the room, dB; absent until the room is known. */
  readonly level_dB?: number
}

/** The last few seconds of audio, kept only to be heard again by the next recognizer. */
export interface AudioTail {
  add(chunk: MeasuredChunk): void
  /** What was captured after this time, oldest first. */
  after(mono_ms: number): readonly MeasuredChunk[]
  last(): MeasuredChunk | undefined
}

export function createAudioTail(): AudioTail {
  let chunks: readonly MeasuredChunk[] = []
  return {
    add: (chunk) => {
      chunks = [...chunks.slice(1 - KEPT_ms / CHUNK_ms), chunk]
    },
    after: (mono_ms) => chunks.filter((chunk) => chunk.mono_ms > mono_ms),
    last: () => chunks.at(-1),
  }
}

/**
 * What the next recognizer hears again of the audio that the old one was given since its last final result.
 * @param hasPhrase the old one has made a phrase of it: then only the end is heard again, from its quietest chunk on,
 * so that the phrase is not heard twice and a next one in the same breath is not cut
 */
export function hearAgain(
  unfinished: readonly MeasuredChunk[],
  hasPhrase: boolean,
): readonly MeasuredChunk[] {
  const length_ms = hasPhrase ? UNSEEN_ms : HEAR_AGAIN_ms
  const recent = unfinished.slice(-length_ms / CHUNK_ms)
  if (!hasPhrase) return recent
  const quietest = Math.min(...recent.map(({ level_dBFS }) => level_dBFS))
  return recent.slice(recent.findLastIndex(({ level_dBFS }) => level_dBFS === quietest) + 1)
}
