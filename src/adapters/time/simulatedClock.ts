import type { Clock } from '../../ports/clock.ts'
import type { Reading } from '../../core/time/stamp.ts'

/** A clock for tests and practice: time passes only when told to, and wakes whoever waits on the way. */
export interface SimulatedClock extends Clock {
  advance(by_ms: number): void
  /** Sets the wall clock forward or back without time passing. */
  setWall(by_ms: number): void
  /** Time passes and nobody is woken: the page is frozen. Who was to be woken is when time next passes. */
  freeze(by_ms: number): void
  /** A new page load: the monotonic clock starts again. */
  reboot(boot: string): void
}

export function createSimulatedClock(start: Reading): SimulatedClock {
  let now = start
  let waiting: { readonly mono_ms: number; readonly wake: () => void }[] = []

  const pass = (by_ms: number): void => {
    now = { ...now, wall_ms: now.wall_ms + by_ms, mono_ms: now.mono_ms + by_ms }
  }

  return {
    read: () => now,
    offsetAt_min: () => now.offset_min,
    wakeAt(mono_ms, wake) {
      const entry = { mono_ms, wake }
      waiting.push(entry)
      return () => {
        waiting = waiting.filter((other) => other !== entry)
      }
    },
    advance(by_ms) {
      const end = now.mono_ms + by_ms
      for (;;) {
        const next = [...waiting].sort((a, b) => a.mono_ms - b.mono_ms)[0]
        if (!next || next.mono_ms > end) break
        waiting = waiting.filter((other) => other !== next)
        pass(Math.max(0, next.mono_ms - now.mono_ms))
        next.wake()
      }
      pass(end - now.mono_ms)
    },
    setWall(by_ms) {
      now = { ...now, wall_ms: now.wall_ms + by_ms }
    },
    freeze: pass,
    reboot(boot) {
      now = { ...now, boot, mono_ms: 0 }
      waiting = []
    },
  }
}
