import { describe, expect, it } from 'vitest'
import {
  EARS_CLOSED,
  isHeldOpen,
  isSaidHeld,
  moveEars,
  type HeldEars,
  type HeldMove,
} from '../../../src/core/voice/heldEars.ts'
import { shippedListening } from '../../support/shippedListening.ts'

const { held: limits } = shippedListening
const after = (...moves: readonly (readonly [HeldMove, number])[]): HeldEars =>
  moves.reduce((ears, [move, at_ms]) => moveEars(ears, move, at_ms, limits), EARS_CLOSED)

describe('a key that is held', () => {
  it('opens from the press to the release', () => {
    expect(isHeldOpen(after(['press', 1000]), 1000)).toBe(true)
    const held = after(['press', 1000], ['release', 3500])
    expect(isHeldOpen(held, 3499)).toBe(true)
    expect(isHeldOpen(held, 3500)).toBe(false)
  })

  it('closes by itself when something lies on it, and opens again only with a new press', () => {
    const stuck = after(['press', 0])
    expect(isHeldOpen(stuck, limits.longest_ms - 1)).toBe(true)
    expect(isHeldOpen(stuck, limits.longest_ms)).toBe(false)
    const still = moveEars(stuck, 'press', limits.longest_ms + 1, limits)
    expect(isHeldOpen(still, limits.longest_ms + 1)).toBe(false)
    const late = after(['press', 0], ['release', limits.longest_ms + 5000])
    expect(isHeldOpen(late, limits.longest_ms + 5000)).toBe(false)
    expect(isHeldOpen(moveEars(late, 'press', 40_000, limits), 40_000)).toBe(true)
  })

  it('closes at once when its coming up will not be seen', () => {
    const lost = after(['press', 0], ['lose', 1500])
    expect(isHeldOpen(lost, 1500)).toBe(false)
    expect(isHeldOpen(moveEars(lost, 'release', 1600, limits), 1600)).toBe(false)
  })

  it('counts once while the machine repeats it', () => {
    expect(after(['press', 0], ['press', 600])).toEqual(after(['press', 0]))
  })

  it('makes nothing of a release without a press', () => {
    expect(after(['release', 10])).toEqual(EARS_CLOSED)
    expect(after(['lose', 10])).toEqual(EARS_CLOSED)
  })
})

describe('a tap', () => {
  it('opens for three seconds from its press', () => {
    const tapped = after(['press', 1000], ['release', 1080])
    expect(isHeldOpen(tapped, 3999)).toBe(true)
    expect(isHeldOpen(tapped, 4000)).toBe(false)
  })

  it('goes on with what is open', () => {
    const twice = after(['press', 0], ['release', 80], ['press', 2000], ['release', 2080])
    expect(twice.span).toEqual({ from_ms: 0, to_ms: 5000 })
  })

  it('ends when the page is left', () => {
    expect(isHeldOpen(after(['press', 0], ['release', 80], ['lose', 1000]), 1000)).toBe(false)
  })
})

describe('what was said while held', () => {
  const span = { from_ms: 1000, to_ms: 4000 }
  it('was made out between a little after the press and a little after the close', () => {
    expect(isSaidHeld(span, 1000 + limits.settle_ms - 1, limits)).toBe(false)
    expect(isSaidHeld(span, 1000 + limits.settle_ms, limits)).toBe(true)
    expect(isSaidHeld(span, 4000 + limits.tail_ms, limits)).toBe(true)
    expect(isSaidHeld(span, 4000 + limits.tail_ms + 1, limits)).toBe(false)
    expect(isSaidHeld({ from_ms: 1000 }, 90_000, limits)).toBe(true)
    expect(isSaidHeld(undefined, 2000, limits)).toBe(false)
  })
})
