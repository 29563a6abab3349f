import { describe, expect, it } from 'vitest'
import { readListeningLimits } from '../../../src/app/site/listeningLimits.ts'
import limits from '../../../src/data/listening.json' with { type: 'json' }

describe('the limits of listening', () => {
  it('are read by their names, without where they come from', () => {
    const { near, held, againEvery_s } = readListeningLimits(limits)
    expect(near.clear_dB).toBeGreaterThanOrEqual(8)
    expect(near.unsure_dB).toBeLessThan(near.clear_dB)
    expect(near.softer_dB).toBeLessThan(near.other_dB)
    expect(held).toMatchObject({ tapOpens_ms: 3000, longest_ms: 20_000 })
    expect(againEvery_s).toBe(10)
  })

  it('are refused without a source, out of range, or unknown', () => {
    const { near } = limits
    expect(() => readListeningLimits({ ...limits, againEvery_s: { value: 10 } })).toThrow()
    const soft = { ...near, clear_dB: { value: 1, source: 'nobody' } }
    expect(() => readListeningLimits({ ...limits, near: soft })).toThrow()
    expect(() => readListeningLimits({ ...limits, louder: 1 })).toThrow()
  })
})
