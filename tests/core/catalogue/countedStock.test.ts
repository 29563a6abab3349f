import { describe, expect, it } from 'vitest'
import {
  COUNTED_MAX,
  countDraws,
  takeStock,
  type CountedDraw,
  type CountedStock,
} from '../../../src/core/catalogue/countedStock.ts'
import { shippedSite } from '../../support/site.ts'

const { tubes } = shippedSite.catalogue
const code = tubes[0]?.code ?? ''
const stock = (count: number, change: Partial<CountedStock> = {}): CountedStock => ({
  lots: [{ tubeCode: code, lot: 'A', expires: '2028-01-01', count }],
  ...{ since_ms: 100, counted: [] },
  ...change,
})
const draw = (n: number, lot = 'A'): CountedDraw => ({
  ...{ drawId: `D${n}`, closed_ms: 100 + n },
  used: [{ code, lot }],
})
const countOf = ({ lots }: CountedStock): number | undefined => lots[0]?.count

describe('a counted stock', () => {
  it('is the same on two devices that hear of the same draws in another order', () => {
    const draws = [draw(1), draw(2), draw(3)]
    const here = countDraws(stock(5), draws, tubes)
    const there = countDraws(countDraws(stock(5), [draw(3)], tubes), draws, tubes)
    expect([countOf(here), countOf(there)]).toEqual([2, 2])
  })

  it('never falls below nothing, and an unknown lot takes nothing', () => {
    expect(countOf(countDraws(stock(1), [draw(1), draw(2)], tubes))).toBe(0)
    expect(countOf(countDraws(stock(1), [draw(1, 'B')], tubes))).toBe(1)
  })

  it('takes no draw off twice that it has forgotten by number', () => {
    const many = Array.from({ length: COUNTED_MAX + 5 }, (_, i) => draw(i))
    const counted = countDraws(stock(10_000), many, tubes)
    expect(counted.counted).toHaveLength(COUNTED_MAX)
    expect(countOf(counted)).toBe(10_000 - many.length)
    // The first five are forgotten, and were closed before the time from which on draws are counted.
    expect(countOf(takeStock(counted, stock(1, { counted: many }), tubes))).toBe(countOf(counted))
  })
})
