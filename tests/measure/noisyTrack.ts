import { RATE_Hz } from './measureInput.ts'

/** Room before and after each recording, s: the end of speech must have time to be found. */
export const BEFORE_s = 0.5
export const AFTER_s = 1.4
/** A quiet room, so that the pauses are not digital silence: -66 dB below full scale. */
const ROOM = 0.0005

const rms = (samples: Float32Array): number =>
  Math.sqrt(samples.reduce((sum, sample) => sum + sample * sample, 0) / Math.max(1, samples.length))

/** The same noise every time, by the minimal standard generator of Park and Miller 1988. */
function randomNoise(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 16_807) % 2_147_483_647
    return (2 * state) / 2_147_483_647 - 1
  }
}

/** A recording in its room, over faint noise or over a given one at a signal-to-noise ratio, dB (whole file, RMS). */
export function noisyTrack(
  speech: Float32Array,
  noise?: { readonly samples: Float32Array; readonly snr_dB: number; readonly from: number },
): Float32Array {
  const before = Math.round(BEFORE_s * RATE_Hz)
  const length = before + speech.length + Math.round(AFTER_s * RATE_Hz)
  const track = new Float32Array(length)
  if (noise) {
    const part = track.map((_, i) => noise.samples[(noise.from + i) % noise.samples.length] ?? 0)
    const gain = rms(speech) / Math.max(1e-9, rms(part)) / 10 ** (noise.snr_dB / 20)
    part.forEach((sample, i) => (track[i] = gain * sample))
  } else {
    const next = randomNoise(1)
    track.forEach((_, i) => (track[i] = ROOM * next()))
  }
  speech.forEach((sample, i) => (track[before + i] = (track[before + i] ?? 0) + sample))
  return track.map((sample) => Math.max(-1, Math.min(1, sample)))
}

const FRAME = RATE_Hz / 50
/** Speech ends where the recording was last within this of its loudest 20 ms, and well above its own noise, dB. */
const BELOW_LOUDEST_dB = 30
const ABOVE_NOISE_dB = 8

/** End of speech in a recording, s from its start, from its loudness alone. */
export function endOfSpeech_s(speech: Float32Array): number {
  const levels: number[] = []
  for (let at = 0; at < speech.length; at += FRAME) {
    levels.push(20 * Math.log10(rms(speech.subarray(at, at + FRAME)) + 1e-9))
  }
  const sorted = [...levels].sort((a, b) => a - b)
  const loudest = sorted.at(-1) ?? -180
  const noise = sorted[Math.floor(sorted.length / 20)] ?? -180
  // A recording without a pause has no noise to be seen: half of the way down is always speech.
  const limit = Math.max(
    loudest - BELOW_LOUDEST_dB,
    Math.min(noise + ABOVE_NOISE_dB, loudest - BELOW_LOUDEST_dB / 2),
  )
  return ((levels.findLastIndex((level) => level >= limit) + 1) * FRAME) / RATE_Hz
}
