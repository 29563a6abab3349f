import type { DayItem } from '../../core/day/dayList.ts'

/**
 * What was listed again, one after another, because a draw did not give all of an order.
 * @param test that is asked for: only what was listed again for it; all, where that is not sure
 * @param byId the items of the list by the ids of their orders
 */
export function followersOf(
  item: DayItem,
  test: string | undefined,
  byId: ReadonlyMap<string, DayItem>,
): readonly DayItem[] {
  const next = item.followedBy === undefined ? undefined : byId.get(item.followedBy)
  if (!next || (test !== undefined && !next.order.order.tests.includes(test))) return []
  return [next, ...followersOf(next, test, byId)]
}
