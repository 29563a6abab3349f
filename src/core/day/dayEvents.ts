import type { BenchAct } from '../protocol/benchEvents.ts'
import type { ChainEntry } from '../protocol/entry.ts'
import type { ListedOrder } from './listedOrder.ts'

/** Tubes of one draw. */
export interface ActedSpecimens {
  readonly drawId: string
  readonly tubeIds: readonly string[]
}

/** Tubes that should have been with the others and were not, by their numbers, and who said so. */
export interface MissingTubes {
  readonly numbers: readonly string[]
  readonly by: string
}

type Without<T, K extends PropertyKey> = T extends unknown ? Omit<T, K> : never

/** What was done to tubes at the bench, as their draws chart it; to which of them stands beside it. */
export type ActDone = Without<BenchAct, 'tubeIds' | 'act' | 'at_ms'>

/** Everything that can stand in the log of a day: what happened to orders outside of their draws. */
export type DayEvent =
  | { readonly type: 'orderListed'; readonly order: ListedOrder }
  /** The order as it is from here on. */
  | { readonly type: 'orderChanged'; readonly order: ListedOrder; readonly why?: string }
  | { readonly type: 'orderCalled'; readonly orderIds: readonly string[] }
  | { readonly type: 'orderNotFound'; readonly orderIds: readonly string[] }
  | {
      readonly type: 'orderPutOff'
      readonly orderIds: readonly string[]
      /** ms since 1970 UTC; missing: until somebody takes it up again. */
      readonly until_ms?: number
      readonly why: string
    }
  | { readonly type: 'orderRefused'; readonly orderIds: readonly string[]; readonly why?: string }
  | {
      readonly type: 'orderCancelled'
      readonly orderIds: readonly string[]
      readonly by: string
      readonly why: string
    }
  | {
      readonly type: 'orderReopened'
      readonly orderIds: readonly string[]
      readonly why: string
      /** The draws that served them so far: what these gave is not enough, whatever any clock says of the order. */
      readonly after?: readonly string[]
    }
  /** They share a draw, or they do not, whatever would be proposed. */
  | { readonly type: 'ordersTogether'; readonly orderIds: readonly string[]; readonly why?: string }
  | { readonly type: 'ordersApart'; readonly orderIds: readonly string[]; readonly why?: string }
  /** They look like one order listed twice, and somebody says that each is wanted. */
  | { readonly type: 'ordersBothWanted'; readonly orderIds: readonly string[] }
  /** The record of the draw that served them was taken off this device. */
  | {
      readonly type: 'recordErased'
      readonly drawId: string
      readonly orderIds: readonly string[]
    }
  /** One act at the bench on tubes of several draws, before it is charted in each of them. */
  | {
      readonly type: 'benchActed'
      readonly id: string
      readonly act: ActDone
      readonly specimens: readonly ActedSpecimens[]
      /** When it was done, where that is another time than the entry's; ms since 1970 UTC. */
      readonly at_ms?: number
      readonly missing?: MissingTubes
    }
  /** An act that was said in error: no draw charts it any more, and those that did take it back. */
  | { readonly type: 'actTakenBack'; readonly act: string }
  /** First in a further log of a day: an earlier one of it is damaged from that entry on, and stays as it is. */
  | {
      readonly type: 'logContinued'
      readonly of: string
      readonly seq: number
      readonly fault: string
    }

export type DayEventType = DayEvent['type']
export type DayEntry = ChainEntry<DayEvent>
