import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { waitFor_ms } from '../../../src/core/handOver/waitFor.ts'

const LIMITS = { firstWait_s: 5, mostWait_s: 900 }

// Common practice ("exponential backoff with jitter"), no source.
describe('the wait before the next try', () => {
  it('doubles up to the most', () => {
    const waits = [1, 2, 3, 4, 8, 9, 40, 4000].map((n) => waitFor_ms(n, LIMITS, 0.999999) / 1000)
    expect(waits.map(Math.round)).toEqual([5, 10, 20, 40, 640, 900, 900, 900])
  })

  it('is never below half and never above the most, whatever the lot', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (n, lot) => {
          const full_ms = Math.min(900, 5 * 2 ** Math.min(n - 1, 30)) * 1000
          const wait_ms = waitFor_ms(n, LIMITS, lot)
          expect(wait_ms).toBeGreaterThanOrEqual(full_ms / 2 - 1)
          expect(wait_ms).toBeLessThanOrEqual(full_ms)
        },
      ),
    )
  })

  it('heeds a server that asks for longer, up to the most', () => {
    expect(waitFor_ms(1, LIMITS, 0, 120)).toBe(120_000)
    expect(waitFor_ms(1, LIMITS, 0, 86_400)).toBe(900_000)
    expect(waitFor_ms(1, LIMITS, 0, 1)).toBe(2500)
  })
})
