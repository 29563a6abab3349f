import { defined } from '../basics/defined.ts'
import type { Stamp } from '../time/stamp.ts'
import type { ActDone, ActedSpecimens, DayEntry, DayEvent, MissingTubes } from './dayEvents.ts'
import type { ListedOrder } from './listedOrder.ts'

/** How an order stands by the day's logs alone; what its draws tell comes on top of it, see `orderStatus`. */
export type Standing =
  'waiting' | 'called' | 'notFound' | 'putOff' | 'refused' | 'cancelled' | 'erased'

/** One order with what happened to it outside of its draws. */
export interface ListedItem {
  readonly order: ListedOrder
  readonly listed: Stamp
  readonly standing: Standing
  /** Since when it stands so. */
  readonly since: Stamp
  readonly why?: string
  /** Who cancelled it. */
  readonly by?: string
  /** Put off until then. */
  readonly until_ms?: number
  /** When it was last changed. */
  readonly changed?: Stamp
  /** How often the patient was called. */
  readonly calls: number
  /** Draws after which it was taken up again: they settle it no more. */
  readonly after: readonly string[]
  /** Tests that a change put into it, each with when (ms since 1970 UTC): a draw may have been open already. */
  readonly added: readonly { readonly test: string; readonly at_ms: number }[]
}

export type Tie = 'together' | 'apart'

/** An act at the bench as the day holds it. */
export interface DayAct {
  readonly id: string
  readonly act: ActDone
  readonly specimens: readonly ActedSpecimens[]
  /** When it was done, ms since 1970 UTC. */
  readonly at_ms: number
  readonly at: Stamp
  readonly by: string
  readonly missing?: MissingTubes
  /** It was said in error. */
  readonly takenBack?: true
  /** Who said so. */
  readonly takenBackBy?: string
}

/** What the logs of the days tell. */
export interface DayState {
  /** In the order in which they were listed, by the id of the order. */
  readonly items: ReadonlyMap<string, ListedItem>
  /** What somebody said of two orders, by `pairKey`; the latest word stands. */
  readonly ties: ReadonlyMap<string, Tie>
  /** Pairs of orders that look like one and are both wanted. */
  readonly bothWanted: ReadonlySet<string>
  readonly acts: readonly DayAct[]
}

/** The same for two orders, whichever is named first. */
export const pairKey = (a: string, b: string): string => (a < b ? `${a} ${b}` : `${b} ${a}`)

/** Every two of them. */
const pairsOf = (ids: readonly string[]): readonly string[] =>
  ids.flatMap((a, index) => ids.slice(index + 1).map((b) => pairKey(a, b)))

interface Building {
  readonly items: Map<string, ListedItem>
  readonly ties: Map<string, Tie>
  readonly bothWanted: Set<string>
  readonly acts: DayAct[]
}

/** The state after these entries, those of an earlier day first. */
export function foldDays(entries: readonly DayEntry[]): DayState {
  const state: Building = { items: new Map(), ties: new Map(), bothWanted: new Set(), acts: [] }
  for (const entry of entries) add(state, entry)
  return state
}

/** Nothing more comes of these by themselves. */
export const ENDED: ReadonlySet<Standing> = new Set(['refused', 'cancelled', 'erased'])

/**
 * What can be said of an order that has ended. All else was said by whoever did not know of it, or before it by a clock
 * that is wrong: what somebody ended waits again only once somebody takes it up again.
 */
const GOES_ON: ReadonlySet<DayEvent['type']> = new Set(['orderReopened', 'recordErased'])

type Ended = Pick<ListedItem, 'standing' | 'why' | 'by' | 'until_ms'>

function add(state: Building, { event, at, by }: DayEntry): void {
  const stand = (ids: readonly string[], ended: Ended): void => {
    for (const id of ids) {
      const item = state.items.get(id)
      if (!item || (ENDED.has(item.standing) && !GOES_ON.has(event.type))) continue
      const { order, listed, calls, changed, added } = item
      const more = ended.standing === 'called' ? 1 : 0
      const kept = { order, listed, added, ...(changed && { changed }) }
      const after = [...item.after, ...(event.type === 'orderReopened' ? (event.after ?? []) : [])]
      state.items.set(id, { ...kept, after, since: at, calls: calls + more, ...ended })
    }
  }
  switch (event.type) {
    case 'orderListed':
      state.items.set(event.order.id, {
        order: event.order,
        listed: at,
        standing: 'waiting',
        since: at,
        calls: 0,
        after: [],
        added: [],
      })
      break
    case 'orderChanged': {
      const item = state.items.get(event.order.id)
      if (item) {
        const before = item.order.order.tests
        const more = event.order.order.tests.filter((test) => !before.includes(test))
        const added = [...item.added, ...more.map((test) => ({ test, at_ms: at.at_ms }))]
        state.items.set(event.order.id, { ...item, order: event.order, changed: at, added })
      }
      break
    }
    case 'ordersTogether':
    case 'ordersApart': {
      const tie = event.type === 'ordersTogether' ? 'together' : 'apart'
      for (const pair of pairsOf(event.orderIds)) state.ties.set(pair, tie)
      break
    }
    case 'ordersBothWanted':
      for (const pair of pairsOf(event.orderIds)) state.bothWanted.add(pair)
      break
    case 'benchActed': {
      const { id, act, specimens, at_ms = at.at_ms, missing } = event
      state.acts.push(defined({ id, act, specimens, at_ms, at, by, missing }))
      break
    }
    case 'actTakenBack':
      for (const [index, act] of state.acts.entries()) {
        if (act.id === event.act) state.acts[index] = { ...act, takenBack: true, takenBackBy: by }
      }
      break
    case 'logContinued':
      break
    default:
      stand(event.orderIds, endedBy(event))
  }
}

type StandingEvent = Exclude<
  DayEvent,
  {
    readonly type:
      | 'orderListed'
      | 'orderChanged'
      | 'ordersTogether'
      | 'ordersApart'
      | 'ordersBothWanted'
      | 'benchActed'
      | 'actTakenBack'
      | 'logContinued'
  }
>

function endedBy(event: StandingEvent): Ended {
  switch (event.type) {
    case 'orderCalled':
      return { standing: 'called' }
    case 'orderNotFound':
      return { standing: 'notFound' }
    case 'orderReopened':
      return { standing: 'waiting', why: event.why }
    case 'recordErased':
      return { standing: 'erased' }
    case 'orderPutOff':
      return {
        standing: 'putOff',
        why: event.why,
        ...(event.until_ms !== undefined && { until_ms: event.until_ms }),
      }
    case 'orderRefused':
      return { standing: 'refused', ...(event.why !== undefined && { why: event.why }) }
    case 'orderCancelled':
      return { standing: 'cancelled', by: event.by, why: event.why }
  }
}
