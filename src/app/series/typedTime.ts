import type { Reading } from '../../core/time/stamp.ts'

const DAY_ms = 86_400_000
/** A clock on the wall may be a little ahead of this one. */
const AHEAD_ms = 60_000

/** The last time it was that o'clock, local, ms since 1970 UTC; `undefined` for what is no time, `10:32`. */
export function typedTime_ms(typed: string, { wall_ms, offset_min }: Reading): number | undefined {
  const [, hours, minutes] = /^([01]?\d|2[0-3])[:.]([0-5]\d)$/.exec(typed) ?? []
  if (hours === undefined || minutes === undefined) return undefined
  const local_ms = wall_ms + offset_min * 60_000
  const midnight_ms = Math.floor(local_ms / DAY_ms) * DAY_ms
  const at_ms = midnight_ms + (Number(hours) * 60 + Number(minutes)) * 60_000 - offset_min * 60_000
  return at_ms > wall_ms + AHEAD_ms ? at_ms - DAY_ms : at_ms
}

/** A dose may be an hour late and still be the next one (common practice, no source). */
const STILL_NEXT_ms = 3_600_000

/** The next time it will be that o'clock, or was within the last hour, for what is still to come. */
export function nextTime_ms(typed: string, now: Reading): number | undefined {
  const last_ms = typedTime_ms(typed, now)
  if (last_ms === undefined) return undefined
  return last_ms < now.wall_ms - STILL_NEXT_ms ? last_ms + DAY_ms : last_ms
}
