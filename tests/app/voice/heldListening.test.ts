import { beforeEach, describe, expect, it } from 'vitest'
import { createSimulatedClock, type SimulatedClock } from '../../../src/adapters/time/simulatedClock.ts' // prettier-ignore
import { createHeldListening, type HeldListening } from '../../../src/app/voice/heldListening.ts'
import type { HeldSpan } from '../../../src/core/voice/heldEars.ts'
import { shippedListening } from '../../support/shippedListening.ts'

const { held: limits } = shippedListening
let clock: SimulatedClock
let told: [boolean, HeldSpan | undefined][]
let held: HeldListening

beforeEach(() => {
  clock = createSimulatedClock({ boot: 'a', mono_ms: 0, wall_ms: 0, offset_min: 0 })
  told = []
  held = createHeldListening({ clock, limits, onChange: (...change) => told.push(change) })
})

describe('held listening', () => {
  it('tells that it is open, and that a tap has ended by itself', () => {
    held.move('press')
    clock.advance(100)
    held.move('release')
    expect(told.map(([isOpen]) => isOpen)).toEqual([true, true])
    clock.advance(limits.tapOpens_ms - 101)
    expect(held.isOpen()).toBe(true)
    clock.advance(1)
    expect(held.isOpen()).toBe(false)
    expect(told.at(-1)).toEqual([false, { from_ms: 0, to_ms: limits.tapOpens_ms }])
  })

  it('ends where something lies on the key', () => {
    held.move('press')
    clock.advance(limits.longest_ms)
    expect(told.at(-1)?.[0]).toBe(false)
  })

  it('tells nothing any more once it is stopped', () => {
    held.move('press')
    held.stop()
    const { length } = told
    clock.advance(limits.longest_ms)
    expect(told).toHaveLength(length)
  })
})
