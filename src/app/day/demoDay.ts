import type { ListedOrder } from '../../core/day/listedOrder.ts'
import type { Reading } from '../../core/time/stamp.ts'
import type { SiteData } from '../site/siteData.ts'

const MINUTE_ms = 60_000

/** A day of invented patients to try the list with, due around now. */
export function demoDay(
  { demo: { day } }: Pick<SiteData, 'demo'>,
  { wall_ms }: Pick<Reading, 'wall_ms'>,
): readonly Omit<ListedOrder, 'id'>[] {
  return day.map(({ due, ...order }): Omit<ListedOrder, 'id'> => {
    const { in_min = 0, ...when } = due ?? {}
    return {
      preparation: { anticoagulant: 'notAsked', restrictions: {} },
      ...order,
      ...(due && { due: { kind: due.kind, ...when, at_ms: wall_ms + in_min * MINUTE_ms } }),
      invented: true,
      from: 'demo',
      questions: [],
    }
  })
}
