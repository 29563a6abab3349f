import type { Clock } from '../../ports/clock.ts'

/** Where wake-ups come from: a worker where there is one, since pages in the background are slowed down. */
export interface Waker {
  at(delay_ms: number, wake: () => void): () => void
}

/** Wakes by the page's own timer. */
export const pageWaker: Waker = {
  at(delay_ms, wake) {
    const timer = setTimeout(wake, delay_ms)
    return () => clearTimeout(timer)
  },
}

/** Timers hold their delay in 32 bits with a sign; beyond that they fire at once (HTML standard, timers). */
export const LONGEST_TIMER_ms = 2 ** 31 - 1

/** Waits in stretches that a timer can hold. Without an end it waits for ever, on no timer. */
function wakeIn(waker: Waker, delay_ms: number, wake: () => void): () => void {
  if (delay_ms === Infinity) return () => undefined
  if (delay_ms <= LONGEST_TIMER_ms) return waker.at(delay_ms, wake)
  let cancel = waker.at(LONGEST_TIMER_ms, () => {
    cancel = wakeIn(waker, delay_ms - LONGEST_TIMER_ms, wake)
  })
  return () => cancel()
}

const offsetAt_min = (at_ms: number): number => -new Date(at_ms).getTimezoneOffset()

/** The browser's clocks. `boot` names this page load. */
export function createSystemClock(boot: string, waker: Waker = pageWaker): Clock {
  return {
    read: () => {
      const wall_ms = Date.now()
      return {
        wall_ms,
        mono_ms: performance.now(),
        boot,
        offset_min: offsetAt_min(wall_ms),
      }
    },
    offsetAt_min,
    wakeAt: (mono_ms, wake) => wakeIn(waker, Math.max(0, mono_ms - performance.now()), wake),
  }
}
