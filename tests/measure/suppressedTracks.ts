import { CHUNK_SAMPLES } from '../../src/adapters/speech/vosk/audioSource.ts'
import { RATE_Hz } from './measureInput.ts'
import type { Suppress } from './suppressor.ts'

export interface SuppressedTracks {
  /** As long as they were. */
  readonly tracks: readonly Float32Array[]
  /** Share of the length of the sound that the work took. */
  readonly realTimeFactor: number
}

/**
 * The tracks one after another through one suppressor that goes on, as behind a microphone, in the pieces in which
 * sound reaches the recognizer. What a piece does not bring out in time comes with the next one, so each track is late
 * by all that the suppressor takes: latency that is counted on it has the delay in it.
 * @param now_ms a clock that only goes forward
 */
export function suppressedTracks(
  tracks: readonly Float32Array[],
  suppress: Suppress,
  now_ms: () => number,
): SuppressedTracks {
  const length = tracks.reduce((sum, track) => sum + track.length, 0)
  // The last piece is filled up with silence: a suppressor answers whole pieces in full.
  const whole = new Float32Array(Math.ceil(length / CHUNK_SAMPLES) * CHUNK_SAMPLES)
  let at = 0
  for (const track of tracks) {
    whole.set(track, at)
    at += track.length
  }
  const late = new Float32Array(whole.length)
  const began_ms = now_ms()
  let filled = 0
  for (let from = 0; from < whole.length; from += CHUNK_SAMPLES) {
    const out = suppress(whole.subarray(from, from + CHUNK_SAMPLES))
    // The first piece shows how far it stays behind; that much silence comes first, once.
    if (from === 0) filled = CHUNK_SAMPLES - out.length
    late.set(out, filled)
    filled += out.length
  }
  const took_ms = now_ms() - began_ms
  let start = 0
  return {
    tracks: tracks.map((track) => late.slice(start, (start += track.length))),
    realTimeFactor: took_ms / (1000 * (whole.length / RATE_Hz)),
  }
}
