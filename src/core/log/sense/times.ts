import type { DrawLog } from '../../protocol/entry.ts'
import { CLOCK_STEP_ms } from '../../time/course.ts'
import type { Stamp } from '../../time/stamp.ts'
import { logFault, type LogFault } from '../fault.ts'

/** Local time is nowhere further from UTC (IANA time zone database: UTC-12 to UTC+14). */
const FURTHEST_min = 14 * 60
/** The years that a date with four digits can hold (ISO 8601), as Unix ms. */
const YEAR_1970_ms = 0
export const YEAR_10000_ms = 253_402_300_800_000

/**
 * Times that no clocks can have given. A wall clock may be set to anything, so a jump is no fault; but a page's own
 * clock never runs back, and the charted time is never before the wall clock of its entry nor after the latest wall
 * clock and everything that ran since, see `stampAfter`.
 */
export function timeFault({ entries }: DrawLog): LogFault | undefined {
  const latest = new Map<string, number>()
  let wall_ms = -Infinity
  let ran_ms = 0
  for (const { at, seq } of entries) {
    const { boot } = at
    // A reading that could not be had stands as null.
    const mono_ms: number = typeof at.mono_ms === 'number' ? at.mono_ms : (latest.get(boot) ?? 0)
    const before_ms = latest.get(boot) ?? mono_ms
    if (mono_ms < before_ms || mono_ms < 0) return logFault('monoBack', seq)
    latest.set(boot, mono_ms)
    ran_ms += mono_ms - before_ms
    wall_ms = Math.max(wall_ms, at.wall_ms)
    const fault = stampFault(at, seq, wall_ms + ran_ms)
    if (fault) return fault
  }
  return undefined
}

function stampFault(at: Stamp, seq: number, most_ms: number): LogFault | undefined {
  const { at_ms, wall_ms, offset_min } = at
  if (Math.abs(offset_min) > FURTHEST_min) return logFault('noSuchOffset', seq, { offset_min })
  if ([at_ms, wall_ms].some((time) => time < YEAR_1970_ms || time >= YEAR_10000_ms)) {
    return logFault('noSuchYear', seq)
  }
  const apart = at_ms < wall_ms - CLOCK_STEP_ms || at_ms > most_ms + CLOCK_STEP_ms
  return apart ? logFault('clocksApart', seq) : undefined
}
