import { describe, expect, it } from 'vitest'
import { createResampler } from '../../../src/adapters/speech/vosk/resampler.ts'

const OUT_Hz = 16_000
const SECOND = 1

/** A tone of so many Hz, one second at that rate. */
const tone = (tone_Hz: number, rate_Hz: number): Float32Array =>
  Float32Array.from({ length: rate_Hz * SECOND }, (_, i) =>
    Math.sin((2 * Math.PI * tone_Hz * i) / rate_Hz),
  )

/** The samples through a resampler in chunks of 100 ms, as the worklet cuts them. */
function through(samples: Float32Array, rate_Hz: number): readonly number[] {
  const resample = createResampler(rate_Hz, OUT_Hz)
  const chunk = Math.round(rate_Hz / 10)
  const out: number[] = []
  for (let from = 0; from < samples.length; from += chunk)
    out.push(...resample(samples.subarray(from, from + chunk)))
  return out
}

/** Level of the middle of the output, dB below full scale of a sine. */
function level_dB(samples: readonly number[]): number {
  const middle = samples.slice(2000, -2000)
  const power = middle.reduce((sum, sample) => sum + sample * sample, 0) / middle.length
  return 10 * Math.log10(2 * power)
}

// A band-limited tone sampled at another rate is known exactly: the same sine at the new times (sampling theorem).
describe.each([48_000, 44_100, 96_000, 32_000, 8_000])('from %i Hz to 16 kHz', (rate_Hz) => {
  it('a tone within both bands comes out as the same tone', () => {
    const got = through(tone(1000, rate_Hz), rate_Hz)
    const expected = tone(1000, OUT_Hz)
    const worst = Math.max(
      ...got.slice(200, -200).map((sample, i) => Math.abs(sample - (expected[i + 200] ?? NaN))),
    )
    expect(worst).toBeLessThan(0.002)
  })

  it('gives 16,000 samples a second, but for the end of the window', () => {
    const length = through(tone(1000, rate_Hz), rate_Hz).length
    expect(length).toBeGreaterThan(OUT_Hz - 200)
    expect(length).toBeLessThanOrEqual(OUT_Hz)
  })
})

describe('what 16 kHz cannot hold', () => {
  it.each([8200, 10_000, 15_000, 20_000])('%i Hz is 60 dB down instead of folded back', (freq) => {
    expect(level_dB(through(tone(freq, 48_000), 48_000))).toBeLessThan(-60)
  })

  it('leaves the band of speech alone: 6 kHz is within a tenth of a dB', () => {
    expect(Math.abs(level_dB(through(tone(6000, 48_000), 48_000)))).toBeLessThan(0.1)
  })
})

it('gives the same whatever the chunks are', () => {
  const samples = tone(440, 44_100)
  const whole = [...createResampler(44_100, OUT_Hz)(samples)]
  expect(through(samples, 44_100)).toEqual(whole.slice(0, through(samples, 44_100).length))
})
