import { standOut, type StandOut } from '../../../core/voice/standOut.ts'
import { levelOf, RATE_Hz } from './audioSource.ts'

/** A segment of speech ends in a pause this long; shorter ones are closed consonants and gaps between words, ms. */
const PAUSE_ms = 200
/** Speech has ended when the audio is this much below the loudest of the last second, dB. */
const QUIET_dB = 10
/** Digital silence counts as this level, so that there is always something quieter than the loudest. */
const SILENCE_dBFS = -100
/** Chunks of 100 ms in that second. */
const SECOND = 10
/** Pauses are counted in frames of this length: shorter than a closed consonant. */
const FRAME_ms = 20
const FRAME = (RATE_Hz * FRAME_ms) / 1000
/** Frames looked back over: longer than any phrase, and the background before it. */
const LOOK_BACK = 6000 / FRAME_ms

/** The speech under way, or the last one, and how it stands out of what came before it once that is known. */
export interface SpeechSegment extends Partial<StandOut> {
  /** How long it has been quiet after it, ms: 0 while somebody speaks. */
  readonly quiet_ms: number
  /** How long it lasted, from its first loud moment to its last, ms. */
  readonly spoken_ms: number
}

export interface SegmentMeter {
  /** Takes the level of the next 100 ms, and of each `FRAME_ms` of them, dB below full scale. */
  add(level_dBFS: number, frames_dBFS: readonly number[]): SpeechSegment
}

/**
 * Measures the last speech and the pause after it by loudness alone, looking back from the end of the audio: what is
 * loud is told by the loudest of the last second, so a quiet room is no speech once somebody has spoken.
 */
export function createSegmentMeter(): SegmentMeter {
  let levels: readonly number[] = []
  let frames: readonly number[] = []
  return {
    add(level_dBFS, frames_dBFS) {
      levels = [...levels.slice(1 - SECOND), Math.max(level_dBFS, SILENCE_dBFS)]
      frames = [...frames, ...frames_dBFS].slice(-LOOK_BACK)
      const limit = Math.max(...levels) - QUIET_dB
      const end = frames.findLastIndex((frame) => frame >= limit)
      if (end < 0) return { quiet_ms: frames.length * FRAME_ms, spoken_ms: 0 }
      let start = end
      for (let i = end - 1; i >= 0 && start - i <= PAUSE_ms / FRAME_ms; i--) {
        if ((frames[i] ?? SILENCE_dBFS) >= limit) start = i
      }
      return {
        quiet_ms: (frames.length - 1 - end) * FRAME_ms,
        spoken_ms: (end - start + 1) * FRAME_ms,
        ...standOut(frames, start, end, FRAME_ms),
      }
    },
  }
}

/** Level of each `FRAME_ms` of a chunk, dB below full scale. */
export function framesOf(samples: Float32Array): readonly number[] {
  return Array.from({ length: Math.floor(samples.length / FRAME) }, (_, i) =>
    levelOf(samples.subarray(i * FRAME, (i + 1) * FRAME)),
  )
}
