import type { DayItem } from '../../core/day/dayList.ts'
import type { AskedBy } from '../../core/fhir/fateOf.ts'
import { requestReference, requestsAt } from '../../core/handOver/requestId.ts'
import { followersOf } from './followersOf.ts'

/**
 * The requests at a record server that the orders of a draw were fetched from, by test. What was listed again because a
 * draw did not give it still answers the request of the first order.
 * @param listed ids of the orders that the draw serves
 * @param server its base address; what was fetched from another one is not named to this one
 */
export function requestsOf(
  listed: readonly string[],
  items: readonly DayItem[],
  server: string,
): AskedBy {
  const byId = new Map(items.map((item) => [item.order.id, item]))
  const answers = (item: DayItem, test: string): boolean =>
    [item, ...followersOf(item, test, byId)].some(({ order }) => listed.includes(order.id))
  const asked = new Map<string, string>()
  // Where two ask for one test, the order that was listed first is answered.
  for (const item of items.toSorted((a, b) => a.item.listed.at_ms - b.item.listed.at_ms)) {
    for (const request of requestsAt(item.order, server)) {
      const { test } = request
      if (test === undefined || asked.has(test) || !answers(item, test)) continue
      asked.set(test, requestReference(request))
    }
  }
  return asked
}
