import { defined } from '../../core/basics/defined.ts'
import type { DayList } from '../../core/day/dayList.ts'
import type { DayState } from '../../core/day/dayState.ts'
import { byPlace, placeOf } from '../../core/day/whatFirst.ts'
import { isToDraw, type Series } from '../../core/record/seriesRecord.ts'
import type { DayRow, DaySitting } from '../view/dayViewTypes.ts'

/** Orders and the next draw of each series that waits, what must happen first above. */
export function dayRows(
  { toDo }: Pick<DayList, 'toDo'>,
  series: readonly Series[],
  { items }: Pick<DayState, 'items'>,
  now_ms: number,
): readonly DayRow[] {
  const orders = toDo.map((group): DayRow => ({ kind: 'orders', place: group.place, group }))
  const sittings = series.flatMap((each): DayRow[] => {
    const sitting = nextOf(each, items, now_ms)
    return sitting ? [{ kind: 'sitting', place: sitting.place, sitting }] : []
  })
  return [...orders, ...sittings].sort((a, b) => byPlace(a.place, b.place))
}

/** The next sample whose time is known. What waits for a word, or is held, stands among the series alone. */
function nextOf(series: Series, items: DayState['items'], now_ms: number): DaySitting | undefined {
  const { opened, holds, id, begun_ms } = series
  if (holds.length > 0) return undefined
  const [next, ...later] = series.sittings.filter(({ state }) => isToDraw(state))
  if (next?.due_ms === undefined) return undefined
  const { tolerance_min, point, name, tests } = next.part
  const due = defined({ kind: 'timed' as const, at_ms: next.due_ms, tolerance_min })
  // A stat order's later samples have their own time and no right before it.
  const { priority: ordered } = opened.order
  const priority = ordered === 'stat' ? 'routine' : ordered
  const place = placeOf(
    { status: 'waiting', priority, due, fasting: false, listed_ms: begun_ms },
    now_ms,
  )
  const where = (opened.listed ?? [])
    .map((listed) => items.get(listed)?.order.place)
    .find((each) => each !== undefined)
  return defined({
    series: id,
    key: next.key,
    ...{ point, name, tests, place, where, tolerance_min },
    orderNumber: opened.order.orderNumber,
    patient: opened.patient,
    invented: opened.invented,
    later: later.flatMap(({ key, part, due_ms }) =>
      due_ms === undefined
        ? []
        : [
            defined({
              ...{ key, due_ms, point: part.point, tests: part.tests },
              tolerance_min: part.tolerance_min,
            }),
          ],
    ),
  })
}
