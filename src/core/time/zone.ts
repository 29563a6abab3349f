import { localTime_ms } from './localTime.ts'

const MINUTE_ms = 60_000
const DAY_ms = 86_400_000

/** Minutes east of UTC of local time at a moment, ms since 1970 UTC. */
export type OffsetAt = (at_ms: number) => number

interface ZonePart {
  /** ms since 1970 UTC; the first part counts before it too. */
  readonly from_ms: number
  readonly offset_min: number
}

/** How local time stands to UTC, over a time in which it may change: plain data, the earliest part first. */
export type Zone = readonly [ZonePart, ...ZonePart[]]

/** Local time that never changes. */
export const fixedZone = (offset_min: number): Zone => [{ from_ms: 0, offset_min }]

/** How local time stands to UTC from a day before a moment to `days` after it; each change to the minute. */
export function zoneAround(offsetAt: OffsetAt, now_ms: number, days = 400): Zone {
  const first = now_ms - DAY_ms
  const parts: [ZonePart, ...ZonePart[]] = [{ from_ms: first, offset_min: offsetAt(first) }]
  for (let day = 0; day <= days; day++) {
    const to_ms = first + (day + 1) * DAY_ms
    const offset_min = offsetAt(to_ms)
    if (offset_min === parts.at(-1)?.offset_min) continue
    parts.push({ from_ms: changeBetween(offsetAt, to_ms - DAY_ms, to_ms), offset_min })
  }
  return parts
}

/** The first whole minute of the new offset. */
function changeBetween(offsetAt: OffsetAt, before_ms: number, after_ms: number): number {
  const is = offsetAt(after_ms)
  let before = Math.floor(before_ms / MINUTE_ms)
  let after = Math.ceil(after_ms / MINUTE_ms)
  while (after - before > 1) {
    const middle = Math.floor((before + after) / 2)
    if (offsetAt(middle * MINUTE_ms) === is) after = middle
    else before = middle
  }
  return after * MINUTE_ms
}

/**
 * A local time, `2026-11-25T18:00`, in ms since 1970 UTC; `undefined` for anything else. One that comes twice, when
 * clocks are set back, is the first of the two; one that never comes is counted on from before the change, as RFC 5545,
 * section 3.3.5, has it.
 */
export function zonedTime_ms(text: string, zone: Zone): number | undefined {
  const local_ms = localTime_ms(text, 0)
  if (local_ms === undefined) return undefined
  const found = zone.find(({ offset_min }, i) => {
    const next = zone[i + 1]
    // What the clocks leave out belongs to the part before it, and what comes twice too.
    return !next || local_ms < next.from_ms + Math.max(offset_min, next.offset_min) * MINUTE_ms
  })
  return local_ms - (found ?? zone[0]).offset_min * MINUTE_ms
}
