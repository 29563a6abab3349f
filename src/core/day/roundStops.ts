import { defined } from '../basics/defined.ts'
import type { DayGroup } from './dayList.ts'
import type { OrderDue, OrderPlace } from './listedOrder.ts'

/** One draw away from the room: where, when and for what. */
export interface RoundStop {
  readonly group: DayGroup
  readonly place: OrderPlace
  /** The earliest of its orders. */
  readonly due?: OrderDue
  readonly tests: readonly string[]
  readonly orderNumbers: readonly string[]
}

/** Draws at a bedside or at home, in the order of the list; what has another place or none is not on a round. */
export function roundStops(groups: readonly DayGroup[]): readonly RoundStop[] {
  return groups.flatMap((group): readonly RoundStop[] => {
    const orders = group.items.map(({ order }) => order)
    const place = orders
      .map((order) => order.place)
      .find((each) => each !== undefined && each.kind !== 'room')
    if (!place) return []
    const [due] = orders
      .flatMap((order) => (order.due ? [order.due] : []))
      .sort((a, b) => a.at_ms - b.at_ms)
    const numbers = orders.map(({ order }) => order.orderNumber).filter((each) => each !== '')
    return [
      defined({
        group,
        place,
        due,
        tests: [...new Set(orders.flatMap(({ order }) => order.tests))],
        orderNumbers: [...new Set(numbers)],
      }),
    ]
  })
}
