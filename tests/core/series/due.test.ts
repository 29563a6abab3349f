import { describe, expect, it } from 'vitest'
import type { TimePoint } from '../../../src/core/order/sitting.ts'
import { dueOf_ms, punctualityOf } from '../../../src/core/series/due.ts'

const MIN = 60_000
const hour: TimePoint = {
  point: '1 h',
  tests: ['glucose75g1h'],
  from: 'drinkFinished',
  after_min: 60,
  tolerance_min: 5,
}
const drunk = [{ moment: 'drinkFinished', at_ms: 1000 * MIN }] as const

describe('when a sample is due', () => {
  it('is so long after its moment, and unknown before that is told', () => {
    expect(dueOf_ms(hour, drunk)).toBe(1060 * MIN)
    expect(dueOf_ms(hour, [])).toBeUndefined()
    expect(dueOf_ms(hour, [{ moment: 'doseGiven', at_ms: 1 }])).toBeUndefined()
  })

  it('follows the latest word on its moment', () => {
    const corrected = [...drunk, { moment: 'drinkFinished', at_ms: 998 * MIN } as const]
    expect(dueOf_ms(hour, corrected)).toBe(1058 * MIN)
  })

  it.each([
    [1054.9, 'early', 6],
    [1055, 'inTime', 5],
    [1060, 'inTime', 0],
    [1065, 'inTime', 5],
    [1065.1, 'late', 6],
  ] as const)('at minute %s is %s', (at_min, verdict, by_min) => {
    expect(punctualityOf(hour, drunk, at_min * MIN)).toEqual({
      due_ms: 1060 * MIN,
      verdict,
      by_min,
    })
  })

  it('is never too late where only an earliest time is given', () => {
    const { tolerance_min: _none, ...earliest } = hour
    expect(punctualityOf(earliest, drunk, 5000 * MIN)?.verdict).toBe('inTime')
    expect(punctualityOf(earliest, drunk, 1059 * MIN)?.verdict).toBe('early')
  })
})
