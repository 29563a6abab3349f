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
