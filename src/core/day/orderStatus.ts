import { defined } from '../basics/defined.ts'
import type { MissingTest } from '../record/missingTests.ts'
import type { ListedItem } from './dayState.ts'
import type { OrderDraw, OrderTube } from './orderDraw.ts'

/** How an order stands. */
export const ORDER_STATUSES = [
  'waiting',
  'called',
  'inChair',
  'drawn',
  'partlyDrawn',
  /** Its draw was closed without a specimen, and nobody said that it is not to be. */
  'notDrawn',
  'refused',
  'notFound',
  'putOff',
  'cancelled',
  'sent',
  'received',
  'rejected',
  /** The record of its draw was taken off this device. */
  'erased',
] as const
export type OrderStatus = (typeof ORDER_STATUSES)[number]

export interface StatusOfOrder {
  readonly status: OrderStatus
  /** ms since 1970 UTC. */
  readonly since_ms: number
  /** The draw it follows from. */
  readonly drawId?: string
  readonly missing: readonly MissingTest[]
  readonly rejected: readonly OrderTube[]
}

/** A draw is still to be made for it: somebody has to do something. */
const TO_DO: ReadonlySet<OrderStatus> = new Set(['waiting', 'called', 'notFound', 'putOff'])
export const isToDo = (status: OrderStatus): boolean => TO_DO.has(status)

/**
 * How an order stands, from the day's logs and from the logs of the draws that serve it.
 * @param draws those that serve it, in any order
 */
export function orderStatus(
  item: ListedItem,
  draws: readonly OrderDraw[],
  now_ms: number,
): StatusOfOrder {
  const draw = draws.toSorted((a, b) => a.opened_ms - b.opened_ms).at(-1)
  const said = ofTheDay(item, now_ms)
  if (!draw) return said
  if (draw.closed_ms === undefined) {
    const { opened_ms: since_ms, drawId } = draw
    return { status: 'inChair', since_ms, drawId, missing: [], rejected: [] }
  }
  // What was said of it after its draw stands: taken up again, cancelled, called for the rest.
  return item.since.at_ms > draw.closed_ms ? { ...said, drawId: draw.drawId } : ofDraw(item, draw)
}

function ofTheDay({ standing, since, until_ms }: ListedItem, now_ms: number): StatusOfOrder {
  const isOver = standing === 'putOff' && until_ms !== undefined && until_ms <= now_ms
  return {
    status: isOver ? 'waiting' : standing,
    since_ms: isOver ? until_ms : since.at_ms,
    missing: [],
    rejected: [],
  }
}

function ofDraw({ order }: ListedItem, draw: OrderDraw): StatusOfOrder {
  const own = draw.testsOf[order.id]
  const isOwn = (test: string): boolean => own === undefined || own.includes(test)
  const tubes = draw.tubes.filter(({ tests }) => tests.some(isOwn))
  const missing = draw.missing.filter(({ test }) => isOwn(test))
  const rejected = tubes.filter((tube) => tube.rejected)
  return defined({
    status: statusOf(draw, tubes, missing),
    since_ms: draw.closed_ms ?? draw.opened_ms,
    drawId: draw.drawId,
    missing,
    rejected,
  })
}

function statusOf(
  { isRefused, reason, isUnread }: OrderDraw,
  tubes: readonly OrderTube[],
  missing: readonly MissingTest[],
): OrderStatus {
  if (isUnread) return 'drawn'
  if (tubes.length === 0) {
    if (isRefused) return 'refused'
    if (reason === 'absent') return 'notFound'
    return reason === 'cancelled' ? 'cancelled' : 'notDrawn'
  }
  if (tubes.some(({ rejected }) => rejected)) return 'rejected'
  if (missing.length > 0) return 'partlyDrawn'
  if (tubes.every(({ isReceived }) => isReceived)) return 'received'
  return tubes.every(({ isSent, isReceived }) => isSent || isReceived) ? 'sent' : 'drawn'
}
