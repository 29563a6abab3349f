import { defined } from '../basics/defined.ts'
import type { MissingTest } from '../record/missingTests.ts'
import type { ListedItem, Standing } from './dayState.ts'
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
  /** It was cancelled or refused, and yet its draw is open or has given blood: who said so, when and why. */
  readonly meanwhile?: Pick<ListedItem, 'standing' | 'since' | 'by' | 'why'>
}

/** A draw is still to be made for it: somebody has to do something. */
const TO_DO: ReadonlySet<OrderStatus> = new Set(['waiting', 'called', 'notFound', 'putOff'])
export const isToDo = (status: OrderStatus): boolean => TO_DO.has(status)

/** Whoever said so did not know of a draw, or said it while the patient sat in the chair. */
const ENDS: ReadonlySet<Standing> = new Set(['cancelled', 'refused'])

/**
 * How an order stands, from the day's logs and from the logs of the draws that serve it. A draw that gave blood settles
 * it until somebody takes it up again after that draw: two logs have two clocks, and no clock may have it drawn twice.
 * @param draws those that serve it, in any order
 */
export function orderStatus(
  item: ListedItem,
  draws: readonly OrderDraw[],
  now_ms: number,
): StatusOfOrder {
  const said = ofTheDay(item, now_ms)
  const meanwhile = ENDS.has(item.standing) ? item : undefined
  const inOrder = draws.toSorted((a, b) => a.opened_ms - b.opened_ms)
  const open = inOrder.findLast(({ closed_ms }) => closed_ms === undefined)
  if (open) {
    const { opened_ms: since_ms, drawId } = open
    return defined({
      ...{ status: 'inChair' as const, since_ms, drawId, missing: [], rejected: [] },
      meanwhile,
    })
  }
  const last = inOrder.at(-1)
  const draw = inOrder.findLast(({ drawId }) => !item.after.includes(drawId))
  if (!last || !draw) return defined({ ...said, drawId: last?.drawId })
  const own = ofDraw(item, draw)
  if (own.gaveBlood) return defined({ ...own.status, meanwhile })
  // Nothing was drawn: what was said of it stands, also where it was said before the draw had ended.
  const isLater = item.since.at_ms > (draw.closed_ms ?? 0)
  return meanwhile || isLater ? { ...said, drawId: draw.drawId } : own.status
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

function ofDraw(
  { order, added }: ListedItem,
  draw: OrderDraw,
): { readonly status: StatusOfOrder; readonly gaveBlood: boolean } {
  const own = draw.testsOf[order.id]
  const isOwn = (test: string): boolean => own === undefined || own.includes(test)
  const tubes = draw.tubes.filter(({ tests }) => tests.some(isOwn))
  const planned = new Set(draw.tests)
  const tooLate = draw.isUnread
    ? []
    : added.filter(({ test, at_ms }) => at_ms > draw.opened_ms && !planned.has(test))
  const missing = [
    ...draw.missing.filter(({ test }) => isOwn(test)),
    ...tooLate
      .filter(({ test }) => order.order.tests.includes(test))
      .map(({ test }): MissingTest => ({ test, why: 'notRecorded' })),
  ]
  const rejected = tubes.filter((tube) => tube.rejected)
  return {
    gaveBlood: draw.isUnread === true || tubes.length > 0,
    status: {
      status: statusOf(draw, tubes, missing),
      since_ms: draw.closed_ms ?? draw.opened_ms,
      drawId: draw.drawId,
      missing,
      rejected,
    },
  }
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
