import { orderDrawOf, type OrderDraw } from '../../core/day/orderDraw.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import type { DrawLogs } from '../draw/drawLogs.ts'

/** What the draws of the list tell, each read again only when its log has grown. */
export interface DayDraws {
  /** As far as it is read; the rest by its line in the list of draws. */
  of(draws: readonly StoredDraw[]): readonly OrderDraw[]
  /** Reads what is new, the latest draws first, and tells now and then. Answers whether anything was. */
  read(draws: readonly StoredDraw[], onSome: () => void): Promise<boolean>
  forget(): void
}

/** After so many the list is shown anew. */
const SOME_n = 25

interface Known {
  readonly entries: number | undefined
  readonly closed: boolean
  /** A restored hub may give another draw under the same number: it was opened at another moment. */
  readonly opened_ms: number
  readonly draw: OrderDraw | undefined
}

export function createDayDraws({ load }: Pick<DrawLogs, 'load'>): DayDraws {
  const known = new Map<string, Known>()

  const isKnown = ({ drawId, entries, closed, opened_ms }: StoredDraw): boolean => {
    const found = known.get(drawId)
    return found?.entries === entries && found?.closed === closed && found?.opened_ms === opened_ms
  }

  const unread = ({ drawId, listed = [], opened_ms, closed }: StoredDraw): OrderDraw => ({
    drawId,
    orderIds: listed,
    opened_ms,
    isUnread: true,
    ...(closed && { closed_ms: opened_ms }),
    tests: [],
    testsOf: {},
    tubes: [],
    missing: [],
    isRefused: false,
  })

  return {
    of: (draws) =>
      draws.flatMap((draw) =>
        isKnown(draw) ? (known.get(draw.drawId)?.draw ?? []) : unread(draw),
      ),
    read: async (draws, onSome) => {
      const more = draws
        .filter((draw) => !isKnown(draw))
        .toSorted((a, b) => b.opened_ms - a.opened_ms)
      for (const [index, { drawId, entries, closed, opened_ms }] of more.entries()) {
        const log = await load(drawId).catch(() => undefined)
        // What cannot be read is told where the record is opened; here its line in the list must do.
        if (log) known.set(drawId, { entries, closed, opened_ms, draw: orderDrawOf(log) })
        if (index % SOME_n === SOME_n - 1) onSome()
      }
      return more.length > 0
    },
    forget: () => known.clear(),
  }
}
