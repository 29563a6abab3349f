/** Windows of this length are told apart as speech or pause. */
const WINDOW_s = 0.02
/** A window this far below the loudest one is a pause, and does not count. */
const PAUSE_dB = -25
/** Over this time the limiter closes before a peak and opens after it: too short to hear, too long to click. */
const LIMITER_s = 0.003

const dB = (power: number): number => 10 * Math.log10(power)

/** Mean level of speech without its pauses, dB below full scale. Samples lie within -1..1. */
export function speechLevel_dB(samples: Float32Array, rate_Hz: number): number {
  const size = Math.round(rate_Hz * WINDOW_s)
  const powers = Array.from({ length: Math.floor(samples.length / size) }, (_, index) => {
    const window = samples.subarray(index * size, (index + 1) * size)
    return window.reduce((sum, sample) => sum + sample * sample, 0) / size
  })
  const least = Math.max(...powers) * 10 ** (PAUSE_dB / 10)
  const spoken = powers.filter((power) => power >= least)
  return dB(spoken.reduce((sum, power) => sum + power, 0) / spoken.length)
}

/** The highest sample, dB below full scale. */
export function peak_dB(samples: Float32Array): number {
  return 2 * dB(samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0))
}

/** Speech brought to a level; single peaks that would pass the ceiling are turned down around their place. */
export function atLevel(
  samples: Float32Array,
  rate_Hz: number,
  level_dB: number,
  ceiling_dB: number,
): Float32Array {
  let made = samples
  // What the limiter takes away is given back by the next round; three are enough for any speech.
  for (let round = 0; round < 3; round++) {
    const gain = 10 ** ((level_dB - speechLevel_dB(made, rate_Hz)) / 20)
    made = limited(
      made.map((sample) => sample * gain),
      rate_Hz,
      ceiling_dB,
    )
  }
  return made
}

function limited(samples: Float32Array, rate_Hz: number, ceiling_dB: number): Float32Array {
  const ceiling = 10 ** (ceiling_dB / 20)
  const reach = Math.round(rate_Hz * LIMITER_s)
  const wanted = samples.map((sample) => Math.min(1, ceiling / Math.abs(sample)))
  const around = (index: number): Float32Array =>
    wanted.subarray(Math.max(0, index - reach), index + reach + 1)
  const held = samples.map((_, index) => Math.min(...around(index)))
  return samples.map((sample, index) => {
    const near = held.subarray(Math.max(0, index - reach), index + reach + 1)
    return (sample * near.reduce((sum, gain) => sum + gain, 0)) / near.length
  })
}
