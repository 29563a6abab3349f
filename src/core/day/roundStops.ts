import { defined } from '../basics/defined.ts'
import type { Patient, Priority } from '../order/order.ts'
import type { DayGroup } from './dayList.ts'
import type { OrderDue, OrderPlace } from './listedOrder.ts'
import type { OrderStatus } from './orderStatus.ts'

/** One draw away from the room: where, when and for what. */
export interface RoundStop {
  readonly key: string
  readonly place: OrderPlace
  readonly patient: Patient
  readonly invented: boolean
  /** The earliest of its orders. */
  readonly due?: OrderDue
  readonly tests: readonly string[]
  readonly orderNumbers: readonly string[]
  readonly priority: Priority
  readonly fasting: boolean
  readonly status: OrderStatus
  /** The sample of a series that it is, "1 h". */
  readonly point?: string
}

/** A further sample of a series, as far as a round needs it. */
export interface SittingToVisit {
  readonly key: string
  readonly patient: Patient
  readonly invented: boolean
  readonly where?: OrderPlace
  readonly point: string
  readonly due_ms?: number
  readonly tolerance_min?: number
  readonly tests: readonly string[]
  readonly orderNumber: string
}

const isAway = (place: OrderPlace | undefined): place is OrderPlace =>
  place !== undefined && place.kind !== 'room'

/** The draw of these orders at a bedside or at home; `undefined` for what has another place or none. */
export function roundStop(group: DayGroup): RoundStop | undefined {
  const { ids, patient, invented, priority, fasting, status } = group
  const orders = group.items.map(({ order }) => order)
  const place = orders.map((order) => order.place).find(isAway)
  if (!place) return undefined
  const [due] = orders
    .flatMap((order) => (order.due ? [order.due] : []))
    .sort((a, b) => a.at_ms - b.at_ms)
  const numbers = orders.map(({ order }) => order.orderNumber).filter((each) => each !== '')
  return defined({
    key: ids.join(' '),
    ...{ place, patient, invented, due, priority, fasting, status },
    tests: [...new Set(orders.flatMap(({ order }) => order.tests))],
    orderNumbers: [...new Set(numbers)],
  })
}

/** The same of a further sample of a series. */
export function sittingStop(sitting: SittingToVisit): RoundStop | undefined {
  const { key, where, patient, invented, point, due_ms, tolerance_min, tests } = sitting
  if (!isAway(where)) return undefined
  return defined({
    ...{ key, place: where, patient, invented, point, tests },
    due:
      due_ms === undefined
        ? undefined
        : defined({ kind: 'timed' as const, at_ms: due_ms, tolerance_min }),
    orderNumbers: sitting.orderNumber === '' ? [] : [sitting.orderNumber],
    ...{ priority: 'routine' as const, fasting: false, status: 'waiting' as const },
  })
}
