import { defined } from '../basics/defined.ts'
import type { DrawLog } from '../protocol/entry.ts'
import type { RejectReason } from '../protocol/benchEvents.ts'
import { factsOf } from '../record/factsOf.ts'
import { tubesForOrder } from '../record/labeledTubes.ts'
import { missingTests, type MissingTest } from '../record/missingTests.ts'

/** A specimen that was drawn for orders of the list, and how far it has come. */
export interface OrderTube {
  readonly tubeId: string
  readonly tests: readonly string[]
  /** A courier took it, or somebody brought it. */
  readonly isSent: boolean
  readonly isReceived: boolean
  readonly rejected?: { readonly reason: RejectReason; readonly note?: string }
}

/** A draw as far as the orders that it serves are concerned. */
export interface OrderDraw {
  readonly drawId: string
  readonly orderIds: readonly string[]
  readonly opened_ms: number
  /** Only its line in the list of draws is known so far. */
  readonly isUnread?: true
  /** Missing while it goes on. */
  readonly closed_ms?: number
  /** Everything that it was opened for. */
  readonly tests: readonly string[]
  /** Tests of each order in it, where it serves several. */
  readonly testsOf: Readonly<Record<string, readonly string[]>>
  readonly tubes: readonly OrderTube[]
  /** Tests without blood, each with why. */
  readonly missing: readonly MissingTest[]
  readonly isRefused: boolean
  /** A code of `END_REASONS`, or a text. */
  readonly reason?: string
}

/** What a draw's log tells of the orders that it serves; `undefined` for a draw of no listed order. */
export function orderDrawOf(log: DrawLog): OrderDraw | undefined {
  const facts = factsOf(log)
  const { opened, openedAt, closed, consent, ways } = facts
  const orderIds = opened.listed ?? []
  if (orderIds.length === 0) return undefined
  const parts = opened.order.parts ?? []
  return defined({
    drawId: opened.drawId,
    orderIds,
    opened_ms: openedAt.at_ms,
    closed_ms: closed?.at.at_ms,
    tests: opened.order.tests,
    testsOf: Object.fromEntries(
      parts.flatMap(({ listed, tests }) => (listed === undefined ? [] : [[listed, tests]])),
    ),
    // What an addendum says is of another person settles no order: whoever was to be drawn still waits.
    tubes: tubesForOrder(facts).map(({ tube }) => {
      const way = ways.get(tube.id)
      return defined({
        tubeId: tube.id,
        tests: tube.tests,
        isSent: way?.sent !== undefined || way?.dropped !== undefined,
        isReceived: way?.received !== undefined,
        rejected:
          way?.rejected && defined({ reason: way.rejected.reason, note: way.rejected.note }),
      })
    }),
    missing: missingTests(facts),
    isRefused: consent?.given === false,
    reason: facts.endReason,
  })
}
