import type { OrderDue, OrderPlace } from '../../core/day/listedOrder.ts'
import type { Zone } from '../../core/time/zone.ts'
import type { OrderSite } from './readOrder.ts'

/** What an order of a list says beside what the form asks. */
export interface ListedWith {
  readonly due?: OrderDue
  readonly place?: OrderPlace
  readonly laboratory?: string
  /** The order asks for it, whatever its tests do. */
  readonly fasting?: boolean
}

/** One order within a file: its own text, as `readOrder` reads it. */
export interface OrderPiece {
  /** Where in the file, for a person to find it: a row, or an order number. */
  readonly where: string
  readonly text: string
  readonly with: ListedWith
  /** Addresses of its requests, in their order, where the file names each. */
  readonly requests?: readonly string[]
  /** What of it cannot be taken for what it should be. */
  readonly faults?: readonly string[]
}

export interface OrdersSite extends OrderSite {
  /** For times that are written without a zone. */
  readonly zone: Zone
}
