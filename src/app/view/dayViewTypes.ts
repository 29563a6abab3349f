import type { DayGroup } from '../../core/day/dayList.ts'
import type { OrderPlace } from '../../core/day/listedOrder.ts'
import type { Place } from '../../core/day/whatFirst.ts'
import type { Patient } from '../../core/order/order.ts'
import type { Source } from '../../core/protocol/entry.ts'
import type { ChosenFile } from '../intake/chosenFile.ts'

/** One sample of a series whose time is known. */
interface DayPoint {
  readonly key: string
  readonly point: string
  readonly tests: readonly string[]
  /** How much earlier or later still counts as in time, minutes. */
  readonly tolerance_min?: number
}

/** A further draw of a series, as it stands on the list. */
export interface DaySitting extends DayPoint {
  readonly series: string
  readonly name: string
  readonly orderNumber: string
  /** Where the patient is, as the order of the list said. */
  readonly where?: OrderPlace
  /** The samples after it, each with when it is due, ms since 1970 UTC. */
  readonly later: readonly (DayPoint & { readonly due_ms: number })[]
  readonly patient: Patient
  readonly invented: boolean
  readonly place: Place
}

/** One thing to do. */
export type DayRow =
  | { readonly kind: 'orders'; readonly place: Place; readonly group: DayGroup }
  | { readonly kind: 'sitting'; readonly place: Place; readonly sitting: DaySitting }

/** The day's list as the screens show it. */
export interface DayView {
  /** What must happen first above. */
  readonly rows: readonly DayRow[]
  /** What is done, the latest first. */
  readonly done: readonly DayGroup[]
  /** ms since 1970 UTC of the look that this is. */
  readonly now_ms: number
  /** Orders that two devices drew while neither could ask the other. */
  readonly doubled: readonly {
    readonly order: string
    readonly orderNumber: string
    readonly drawIds: readonly [first: string, second: string]
  }[]
  /** What was not taken of files, each in a sentence. */
  readonly notTaken: readonly string[]
}

export const NO_DAY: DayView = { rows: [], done: [], now_ms: 0, doubled: [], notTaken: [] }

/** What a person can do with the day's list. None rejects; what goes wrong is told. */
export interface DayActions {
  /** Puts the order of the form on the list, or changes it there, if the form can be read, and goes to the list. */
  addDraft(): Promise<void>
  /** Reads files of orders and puts what can be read on the list; the rest is told, each with its reason. */
  addFiles(files: readonly ChosenFile[]): Promise<void>
  /** Puts invented patients on the list. */
  addDemoDay(): Promise<void>
  /** What was not taken has been read. */
  dismissNotTaken(): void
  call(orderIds: readonly string[]): Promise<void>
  /**
   * Calls who is next and was not called yet; answers whom, where it could be written. A further sample of a series
   * that comes first is answered and told of once: no order of the list stands for it.
   */
  callNext(source?: Source): Promise<DayRow | undefined>
  /** Fills in form and plan for their draw, or goes to the one that runs. */
  begin(orderIds: readonly string[]): Promise<void>
  /** Fills in the form to change the order. */
  edit(orderId: string): void
  notFound(orderIds: readonly string[]): Promise<void>
  /** @param time `10:32`, the next time it is that o'clock; empty: until somebody takes it up again */
  putOff(orderIds: readonly string[], time: string, why: string): Promise<void>
  refuse(orderIds: readonly string[], why: string): Promise<void>
  /** @param by who cancels */
  cancel(orderIds: readonly string[], by: string, why: string): Promise<void>
  reopen(orderIds: readonly string[], why: string): Promise<void>
  /** They share a draw, or they do not. */
  join(orderIds: readonly string[]): Promise<void>
  part(orderIds: readonly string[]): Promise<void>
  keepBoth(orderIds: readonly string[]): Promise<void>
  /** Lists what a draw did not give, as an order of its own. */
  listRest(orderIds: readonly string[]): Promise<void>
}
