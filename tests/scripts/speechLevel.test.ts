import { describe, expect, it } from 'vitest'
import { atLevel, peak_dB, speechLevel_dB } from '../../scripts/prompts/speechLevel.ts'

const RATE_Hz = 16_000
/** A tone of 1 s; a full one has a level of -3.01 dB. */
const tone = (amplitude: number): Float32Array =>
  Float32Array.from(
    { length: RATE_Hz },
    (_, i) => amplitude * Math.sin((2 * Math.PI * 200 * i) / RATE_Hz),
  )
const joined = (...parts: Float32Array[]): Float32Array =>
  Float32Array.from(parts.flatMap((part) => [...part]))
const silence = new Float32Array(RATE_Hz)

describe('the level of speech', () => {
  it('is that of what is spoken, pauses not counted', () => {
    expect(speechLevel_dB(tone(1), RATE_Hz)).toBeCloseTo(-3.01, 2)
    expect(speechLevel_dB(tone(0.1), RATE_Hz)).toBeCloseTo(-23.01, 2)
    expect(speechLevel_dB(joined(silence, tone(0.1), silence), RATE_Hz)).toBeCloseTo(-23.01, 2)
  })
})

describe('speech brought to a level', () => {
  it.each([0.01, 0.3, 1])('has it, with no peak over the ceiling, from %d', (amplitude) => {
    const made = atLevel(joined(tone(amplitude), silence), RATE_Hz, -18, -2)
    expect(speechLevel_dB(made, RATE_Hz)).toBeCloseTo(-18, 1)
    expect(peak_dB(made)).toBeLessThanOrEqual(-2)
  })

  it('turns single peaks down instead of staying quiet for them', () => {
    const click = tone(0.05)
    for (const at of [3000, 9000]) click[at] = 0.9
    const made = atLevel(click, RATE_Hz, -18, -2)
    expect(speechLevel_dB(made, RATE_Hz)).toBeCloseTo(-18, 1)
    expect(peak_dB(made)).toBeLessThanOrEqual(-2)
    expect(made).toHaveLength(click.length)
  })

  it('leaves the shape of speech that needs no limiter as it is', () => {
    const made = atLevel(tone(0.5), RATE_Hz, -18, -2)
    const gain = made[1000]! / tone(0.5)[1000]!
    expect(made[5021]).toBeCloseTo(gain * tone(0.5)[5021]!, 6)
  })
})
