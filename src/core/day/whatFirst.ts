import { defined } from '../basics/defined.ts'
import type { Priority } from '../order/order.ts'
import type { OrderDue } from './listedOrder.ts'
import type { OrderStatus } from './orderStatus.ts'

/** Why something stands where it stands on the list, what must happen first above. */
export const PLACE_REASONS = [
  'inChair',
  'called',
  'stat',
  'timedNow',
  'timedLate',
  'fasting',
  'appointment',
  'asap',
  'urgent',
  'routine',
  'notFound',
  'notYet',
  'putOff',
] as const
export type PlaceReason = (typeof PLACE_REASONS)[number]

/** A place on the list, explained. */
export interface Place {
  readonly reason: PlaceReason
  /** When it is due, ms since 1970 UTC. */
  readonly due_ms?: number
  /** What sorts within one reason: the lower, the earlier. */
  readonly key: number
}

/** What decides the place. */
export interface Placed {
  readonly status: OrderStatus
  readonly priority: Priority
  readonly due?: Pick<OrderDue, 'at_ms' | 'tolerance_min'> & { readonly kind: OrderDue['kind'] }
  readonly fasting: boolean
  /** When it came on the list. */
  readonly listed_ms: number
  readonly until_ms?: number
}

/** So long before its time a timed draw or an appointment goes to the front (common practice, no source). */
const LEAD_min = 15
const MINUTE_ms = 60_000

/**
 * Where something stands: who is in the chair or called, then stat, timed draws that are due, who has fasted,
 * appointments, then priority, each by its time and by arrival; what is not due yet after all of these. A stat order
 * for a time waits for that time too: drawn before it, the sample would be another one.
 */
export function placeOf(placed: Placed, now_ms: number): Place {
  const { status, due, fasting, listed_ms, priority } = placed
  const due_ms = due?.at_ms
  const at = (reason: PlaceReason, key = listed_ms): Place => defined({ reason, due_ms, key })
  if (status === 'inChair' || status === 'called') return at(status)
  if (status === 'putOff') return at('putOff', placed.until_ms ?? Infinity)
  const early_ms = (due?.tolerance_min ?? 0) * MINUTE_ms
  const isNear = !due || now_ms >= due.at_ms - early_ms - LEAD_min * MINUTE_ms
  if (priority === 'stat' && (isNear || due.kind !== 'timed')) return at('stat')
  if (due) {
    if (!isNear) return at('notYet', due.at_ms)
    if (due.kind === 'timed') return at(isLate(due, now_ms) ? 'timedLate' : 'timedNow', due.at_ms)
  }
  if (status === 'notFound') return at('notFound')
  if (fasting) return at('fasting')
  return due ? at('appointment', due.at_ms) : at(priority)
}

/** A time with no tolerance has none that is told here: late only where one is given. */
const isLate = (
  { at_ms, tolerance_min }: Pick<OrderDue, 'at_ms' | 'tolerance_min'>,
  now_ms: number,
): boolean => tolerance_min !== undefined && now_ms > at_ms + tolerance_min * MINUTE_ms

/** Late and due are one class: the earlier time comes first. */
const rankOf = (reason: PlaceReason): number =>
  PLACE_REASONS.indexOf(reason === 'timedLate' ? 'timedNow' : reason)

/** For sorting. */
export const byPlace = (a: Place, b: Place): number =>
  rankOf(a.reason) - rankOf(b.reason) || a.key - b.key
