import { expect, it } from 'vitest'
import { nextPickUp } from '../../../src/core/courier/nextPickUp.ts'

// On the day on which clocks go forward at 02:00, 16:00 is fifteen hours after midnight, not sixteen.
it('counts local time across a change of the clocks', () => {
  const forward_ms = Date.UTC(2026, 2, 29, 1)
  const offsetAt = (at_ms: number): number => (at_ms < forward_ms ? 60 : 120)
  const next = nextPickUp(
    [{ name: 'Main', pickUps: ['16:00'] }],
    Date.UTC(2026, 2, 29, 0, 30),
    offsetAt,
  )
  expect(next?.at_ms).toBe(Date.UTC(2026, 2, 29, 14))
})

const LABORATORIES = [
  { name: 'Main', pickUps: ['11:00', '16:00'] },
  { name: 'Reference', pickUps: ['16:00'] },
  { name: 'On call', pickUps: [] },
]
/** 2026-11-25 at UTC+01:00. */
const local_ms = (hours: number, minutes = 0): number => Date.UTC(2026, 10, 25, hours - 1, minutes)

it.each([
  [10, 35, 11, ['Main']],
  [11, 0, 11, ['Main']],
  [11, 1, 16, ['Main', 'Reference']],
] as const)('at %i:%i the next pick-up is at %i:00', (hours, minutes, at, laboratories) => {
  const next = nextPickUp(LABORATORIES, local_ms(hours, minutes), () => 60)
  expect(next).toEqual({ at_ms: local_ms(at), laboratories })
})

it('tells none where none is left today, or no times are known', () => {
  expect(nextPickUp(LABORATORIES, local_ms(16, 1), () => 60)).toBeUndefined()
  expect(nextPickUp(LABORATORIES.slice(2), local_ms(9), () => 60)).toBeUndefined()
})

it('counts the day as it is here, also where it is another day in UTC', () => {
  // 00:30 at UTC+01:00 is the day before in UTC; 22:00 at UTC-08:00 the day after.
  expect(nextPickUp(LABORATORIES, local_ms(0, 30), () => 60)?.at_ms).toBe(local_ms(11))
  const evening_ms = Date.UTC(2026, 10, 26, 6)
  const late = [{ name: 'Night', pickUps: ['23:00'] }]
  expect(nextPickUp(late, evening_ms, () => -480)?.at_ms).toBe(Date.UTC(2026, 10, 26, 7))
})
