import { CLOCK_STEP_ms } from '../../core/time/course.ts'
import { clockStep_ms, type Reading } from '../../core/time/stamp.ts'
import type { Clock } from '../../ports/clock.ts'

/** How often the screen's clocks are worked out anew. */
export const BEAT_ms = 200
/** A beat later than this means that the page was held up or asleep. */
const AWAY_ms = 5000

export interface HeartbeatListener {
  onBeat(now: Reading): void
  /** The page did not run for that long. */
  onAway(away_ms: number): void
  /** The wall clock moved against the monotonic one while the page ran: it was set, or the machine slept. */
  onClockStep(by_ms: number): void
}

export interface Heartbeat {
  /** Looks at the clocks at once: the page was asleep or out of sight, and its next beat may come late. */
  beatNow(): void
  stop(): void
}

/** Beats until stopped, and notices what a stopped or changed clock looks like from inside. */
export function startHeartbeat(clock: Clock, listener: HeartbeatListener): Heartbeat {
  let isStopped = false
  let last = clock.read()
  let cancel: (() => void) | undefined
  const beat = (): void => {
    const now = clock.read()
    const away_ms = Math.max(0, now.mono_ms - last.mono_ms)
    const step_ms = clockStep_ms(last, now)
    last = now
    if (away_ms > AWAY_ms) listener.onAway(Math.round(away_ms))
    if (Math.abs(step_ms) > CLOCK_STEP_ms) listener.onClockStep(Math.round(step_ms))
    listener.onBeat(now)
    // Whoever is told may have ended the draw.
    if (!isStopped) cancel = clock.wakeAt(now.mono_ms + BEAT_ms, beat)
  }
  cancel = clock.wakeAt(last.mono_ms + BEAT_ms, beat)
  return {
    beatNow() {
      if (isStopped) return
      cancel?.()
      beat()
    },
    stop() {
      isStopped = true
      cancel?.()
    },
  }
}
