import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { likelyShare } from '../../../src/core/voice/likelyShare.ts'

const counts = fc
  .integer({ min: 1, max: 200 })
  .chain((of) => fc.tuple(fc.integer({ min: 0, max: of }), fc.constant(of)))

describe('where a share is likely to lie', () => {
  it('is anywhere while nothing was tried', () => {
    expect(likelyShare(0, 0)).toEqual({ from: 0, to: 1 })
  })

  // E. B. Wilson, JASA 22 (1927): the ends solve (share - p)^2 = p (1 - p) / n, here at one standard error.
  it('ends where a true share would be one standard error away', () => {
    fc.assert(
      fc.property(counts, ([count, of]) => {
        const { from, to } = likelyShare(count, of)
        for (const end of [from, to]) {
          expect((count / of - end) ** 2).toBeCloseTo((end * (1 - end)) / of, 9)
        }
        expect(from).toBeLessThanOrEqual(count / of + 1e-12)
        expect(to).toBeGreaterThanOrEqual(count / of - 1e-12)
      }),
    )
  })

  it('is narrower of more tries with the same share', () => {
    fc.assert(
      fc.property(counts, ([count, of]) => {
        const [few, many] = [likelyShare(count, of), likelyShare(count * 4, of * 4)]
        expect(many.to - many.from).toBeLessThan(few.to - few.from)
      }),
    )
  })
})
