import { defined } from '../basics/defined.ts'
import type { DayGroup, DayItem } from './dayList.ts'
import type { ListedOrder } from './listedOrder.ts'

/** Why something is drawn again where no laboratory turned it down. */
export const NOT_DRAWN = 'notDrawn'

/**
 * What a draw did not give, as an order of its own: the tests of the specimens that the laboratory turned down, or
 * those without blood. Its id follows from what it makes good, so that two pages list it once.
 */
export function recollectionOf({ items }: Pick<DayGroup, 'items'>): ListedOrder | undefined {
  const lacking = items.filter(({ followedBy }) => followedBy === undefined)
  const rejected = lacking.filter(({ status }) => status.status === 'rejected')
  const short = lacking.filter(
    ({ status }) => status.status === 'partlyDrawn' || status.status === 'notDrawn',
  )
  return rejected.length > 0 ? ofRejected(rejected) : ofMissing(short)
}

function ofRejected(items: readonly DayItem[]): ListedOrder | undefined {
  const tubes = new Map(
    items.flatMap(({ status }) => status.rejected).map((tube) => [tube.tubeId, tube]),
  )
  const [first] = tubes.values()
  const drawId = items[0]?.status.drawId
  if (!first?.rejected || drawId === undefined) return undefined
  const tubeIds = [...tubes.keys()].sort()
  const tests = [...new Set([...tubes.values()].flatMap((tube) => tube.tests))]
  const { reason, note } = first.rejected
  const recollects = defined({ drawId, tubeIds, reason, note })
  return again(items, tests, { recollects, id: `R-${drawId}-${tubeIds.join('.')}` })
}

function ofMissing(items: readonly DayItem[]): ListedOrder | undefined {
  const drawId = items[0]?.status.drawId
  if (drawId === undefined) return undefined
  const tests = [...new Set(items.flatMap(({ status }) => status.missing.map(({ test }) => test)))]
  if (tests.length === 0) return undefined
  const recollects = { drawId, tubeIds: [], reason: NOT_DRAWN }
  return again(items, tests, { recollects, id: `R-${drawId}` })
}

function again(
  items: readonly DayItem[],
  tests: readonly string[],
  own: Required<Pick<ListedOrder, 'id' | 'recollects'>>,
): ListedOrder | undefined {
  const [first] = items
  if (!first) return undefined
  const { due: _due, moments: _moments, ...order } = first.order
  const parts = items.map(({ order: { id, order: of, laboratory } }) =>
    defined({
      orderNumber: of.orderNumber,
      tests: of.tests.filter((test) => tests.includes(test)),
      provider: of.provider,
      providerNumber: of.providerNumber,
      orderedAt: of.orderedAt,
      priority: of.priority,
      laboratory,
      listed: id,
    }),
  )
  const several = parts.length > 1 ? parts.map(({ listed: _listed, ...part }) => part) : undefined
  return {
    ...order,
    ...own,
    order: defined({ ...order.order, tests, parts: several }),
    from: 'recollection',
    questions: [],
  }
}
