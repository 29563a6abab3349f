import type { SkinPlace } from '../order/collecting.ts'
import type { NeedleSet, Order, Patient, Preparation, Recollects } from '../order/order.ts'
import type { NotedMoment } from '../order/sitting.ts'

/** Why an order is due at a time. A sitting of a series has its due time from the series and not from here. */
export const DUE_KINDS = ['timed', 'appointment'] as const
export type DueKind = (typeof DUE_KINDS)[number]

/** When an order is to be drawn. */
export interface OrderDue {
  readonly kind: DueKind
  /** ms since 1970 UTC. */
  readonly at_ms: number
  /** How much earlier or later still counts as in time, minutes; missing: not said. */
  readonly tolerance_min?: number
}

export const PLACE_KINDS = ['room', 'ward', 'home'] as const
export type PlaceKind = (typeof PLACE_KINDS)[number]

/** Where the patient is. */
export interface OrderPlace {
  readonly kind: PlaceKind
  readonly text: string
}

export const ORDER_SOURCES = ['fhir', 'csv', 'hand', 'recollection', 'demo'] as const
export type OrderSource = (typeof ORDER_SOURCES)[number]

/** A request at the site's record server that an order was fetched from. */
export interface OrderRequest {
  /** Its address there. */
  readonly url: string
  /** The test that it alone asks for, where that is sure. */
  readonly test?: string
}

/** An order as it stands on the day's list: what came, and what is still to be asked. */
export interface ListedOrder {
  /** Its own on this list, whatever number the order bears. */
  readonly id: string
  /** True for invented patients: never mixed with others. */
  readonly invented: boolean
  readonly patient: Patient
  readonly order: Order
  readonly preparation: Preparation
  readonly needleSet?: NeedleSet
  readonly collecting?: SkinPlace
  /** Moments of a series as they were typed, `2026-11-25T06:00`. */
  readonly moments?: Readonly<Partial<Record<NotedMoment, string>>>
  readonly due?: OrderDue
  /** Preparation that the order asks for, beyond what its tests want. */
  readonly fasting?: boolean
  readonly place?: OrderPlace
  /** To which laboratory, where it is not the usual one. */
  readonly laboratory?: string
  readonly from: OrderSource
  readonly recollects?: Recollects
  /** Missing where it was not fetched from a record server. */
  readonly requests?: readonly OrderRequest[]
  /** What a file left open; asked before the tubes are planned. */
  readonly questions: readonly string[]
}
