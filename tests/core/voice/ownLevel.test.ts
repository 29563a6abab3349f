import { expect, it } from 'vitest'
import { ownLevel, withOwn, type OwnLevels } from '../../../src/core/voice/ownLevel.ts'

const of = (...levels: number[]) => ownLevel(levels.reduce<OwnLevels>(withOwn, []))

it('is known from the third phrase on, and is the middle one', () => {
  expect(of(-20, -22)).toBeUndefined()
  expect(of(-20, -40, -22)).toBe(-22)
})

it('follows the last eight', () => {
  expect(of(...Array.from({ length: 9 }, () => -20), ...Array.from({ length: 5 }, () => -30))).toBe(
    -30,
  )
})
