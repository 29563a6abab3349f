import { describe, expect, it } from 'vitest'
import { dayAndTime, dayAndTimeOf, dayOf, isDay, timeOfDay } from '../../../src/core/time/format.ts'

describe('a day', () => {
  it.each([
    ['2024-02-29', true],
    ['2023-02-29', false],
    ['2000-02-29', true],
    ['1900-02-29', false],
    ['2026-13-01', false],
    ['26-01-01', false],
    ['2026-1-1', false],
    ['2026-11-25 ', false],
    ['2026-11-31', false],
  ])('%s: %s (Gregorian leap years, ISO 8601)', (text, expected) =>
    expect(isDay(text)).toBe(expected),
  )
})

// What stands is the day by its month's name and 24 hours: nobody can take one number for the other. Our own format.
describe('a moment for a person', () => {
  const at = { at_ms: Date.UTC(2026, 10, 25, 22, 28, 59), offset_min: 60 }

  it('is written in the local time of its stamp', () => {
    expect(dayAndTime(at)).toBe('25 Nov 2026 23:28')
    expect(dayAndTime({ ...at, offset_min: 120 })).toBe('26 Nov 2026 00:28')
    expect([dayOf(at), timeOfDay(at)]).toEqual(['25 Nov 2026', '23:28'])
  })

  it.each([
    ['2026-11-25T08:30', '25 Nov 2026 08:30'],
    ['2026-11-25', '25 Nov 2026'],
    ['', ''],
    ['next week', 'next week'],
  ])('typed as %s reads %s', (typed, text) => expect(dayAndTimeOf(typed)).toBe(text))
})
