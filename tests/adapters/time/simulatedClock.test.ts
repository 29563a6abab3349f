import { expect, it } from 'vitest'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'

const start = { wall_ms: 1_000_000, mono_ms: 500, boot: 'a', offset_min: 60 }

it('wakes whoever waits at the very time, in order, also those that ask again on waking', () => {
  const clock = createSimulatedClock(start)
  const woken: number[] = []
  const again = (): void => {
    woken.push(clock.read().mono_ms)
    if (woken.length < 3) clock.wakeAt(clock.read().mono_ms + 100, again)
  }
  clock.wakeAt(600, again)
  clock.advance(1000)
  expect(woken).toEqual([600, 700, 800])
  expect(clock.read()).toMatchObject({ mono_ms: 1500, wall_ms: 1_001_000 })
})

it('does not wake a wait that was given up', () => {
  const clock = createSimulatedClock(start)
  let woken = false
  clock.wakeAt(600, () => (woken = true))()
  clock.advance(1000)
  expect(woken).toBe(false)
})

it('moves the wall clock alone when it is set', () => {
  const clock = createSimulatedClock(start)
  clock.setWall(-3_600_000)
  expect(clock.read()).toMatchObject({ mono_ms: 500, wall_ms: -2_600_000 })
})
