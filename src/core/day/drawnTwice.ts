import type { ListedItem } from './dayState.ts'
import type { ListedOrder } from './listedOrder.ts'
import type { OrderDraw } from './orderDraw.ts'

/** An order with two draws that nobody wanted: two devices drew it while neither could ask the other. */
export interface DrawnTwice {
  readonly order: ListedOrder
  /** The two that were opened first, in that order. */
  readonly drawIds: readonly [first: string, second: string]
}

/** A draw that goes on, or that gave blood; one that gave none takes nothing from another. */
const counts = ({ closed_ms, isUnread, tubes }: OrderDraw): boolean =>
  closed_ms === undefined || isUnread === true || tubes.length > 0

/** Orders that were drawn twice, though nobody took them up again in between. */
export function drawnTwice(
  items: Iterable<ListedItem>,
  draws: readonly OrderDraw[],
): readonly DrawnTwice[] {
  const inOrder = draws.filter(counts).toSorted((a, b) => a.opened_ms - b.opened_ms)
  return [...items].flatMap(({ order, after }): readonly DrawnTwice[] => {
    const [first, second] = inOrder.filter(
      ({ orderIds, drawId }) => orderIds.includes(order.id) && !after.includes(drawId),
    )
    return first && second ? [{ order, drawIds: [first.drawId, second.drawId] }] : []
  })
}
