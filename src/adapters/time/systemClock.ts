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

/** The browser's clocks. `boot` names this page load. */
export function createSystemClock(boot: string, waker: Waker = pageWaker): Clock {
  return {
    read: () => {
      const wall_ms = Date.now()
      return {
        wall_ms,
        mono_ms: performance.now(),
        boot,
        offset_min: -new Date(wall_ms).getTimezoneOffset(),
      }
    },
    wakeAt: (mono_ms, wake) => waker.at(Math.max(0, mono_ms - performance.now()), wake),
  }
}
