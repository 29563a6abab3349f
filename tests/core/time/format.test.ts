import { describe, expect, it } from 'vitest'
import { isDay } from '../../../src/core/time/format.ts'

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
