import type { Laboratory } from '../catalogue/laboratories.ts'
import { calendarDate } from '../time/format.ts'
import { zoneAround, zonedTime_ms, type OffsetAt } from '../time/zone.ts'

export interface PickUp {
  /** Unix ms. */
  readonly at_ms: number
  /** Whose courier comes then. */
  readonly laboratories: readonly string[]
}

/**
 * The next pick-up of this local day, as the site knows the times; `undefined` where none is left today.
 */
export function nextPickUp(
  laboratories: readonly Pick<Laboratory, 'name' | 'pickUps'>[],
  now_ms: number,
  offsetAt: OffsetAt,
): PickUp | undefined {
  const today = calendarDate({ at_ms: now_ms, offset_min: offsetAt(now_ms) })
  const zone = zoneAround(offsetAt, now_ms, 2)
  const all = laboratories.flatMap(({ name, pickUps }) =>
    pickUps.map((time) => ({ name, at_ms: zonedTime_ms(`${today}T${time}`, zone) ?? NaN })),
  )
  const at_ms = Math.min(...all.map((each) => each.at_ms).filter((each) => each >= now_ms))
  if (!Number.isFinite(at_ms)) return undefined
  return {
    at_ms,
    laboratories: all.filter((each) => each.at_ms === at_ms).map(({ name }) => name),
  }
}
