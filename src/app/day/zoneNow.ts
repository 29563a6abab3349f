import { zoneAround, type Zone } from '../../core/time/zone.ts'
import type { Clock } from '../../ports/clock.ts'

/** Local time of this device, for what is to come. */
export const zoneNow = (clock: Clock): Zone =>
  zoneAround((at_ms) => clock.offsetAt_min(at_ms), clock.read().wall_ms)
