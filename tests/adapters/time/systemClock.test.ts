import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { createSystemClock, LONGEST_TIMER_ms } from '../../../src/adapters/time/systemClock.ts'

const DAY_ms = 86_400_000

beforeEach(() => vi.useFakeTimers())
afterEach(() => vi.useRealTimers())

// Node's timers, like a browser's, fire at once when the delay does not fit 31 bits; the simulated ones here do too.
it('a timer alone cannot hold thirty days', () => {
  const woken = vi.fn()
  setTimeout(woken, 30 * DAY_ms)
  vi.advanceTimersByTime(1000)
  expect(woken).toHaveBeenCalledTimes(1)
})

it('wakes once after thirty days, not at once and not again', () => {
  const clock = createSystemClock('boot-1')
  const woken = vi.fn()
  clock.wakeAt(performance.now() + 30 * DAY_ms, woken)
  vi.advanceTimersByTime(LONGEST_TIMER_ms)
  expect(woken).not.toHaveBeenCalled()
  vi.advanceTimersByTime(30 * DAY_ms - LONGEST_TIMER_ms)
  expect(woken).toHaveBeenCalledTimes(1)
  vi.advanceTimersByTime(60 * DAY_ms)
  expect(woken).toHaveBeenCalledTimes(1)
})

it('a long wait can be given up in its first stretch and in its second', () => {
  const clock = createSystemClock('boot-1')
  const woken = vi.fn()
  clock.wakeAt(performance.now() + 30 * DAY_ms, woken)()
  const cancel = clock.wakeAt(performance.now() + 30 * DAY_ms, woken)
  vi.advanceTimersByTime(LONGEST_TIMER_ms + 1000)
  cancel()
  vi.advanceTimersByTime(60 * DAY_ms)
  expect(woken).not.toHaveBeenCalled()
})

it('what has no end never wakes', () => {
  const woken = vi.fn()
  createSystemClock('boot-1').wakeAt(Infinity, woken)
  vi.advanceTimersByTime(60 * DAY_ms)
  expect(woken).not.toHaveBeenCalled()
})
