import { expect, it } from 'vitest'
import { wholeHours } from '../../../src/core/time/wholeHours.ts'

it.each([
  [15, undefined],
  [60, undefined],
  [90, undefined],
  [120, 2],
  [150, undefined],
  [1440, 24],
])('%d min is told as %s h', (length_min, hours) => {
  expect(wholeHours(length_min)).toBe(hours)
})
