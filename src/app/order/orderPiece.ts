import type { OrderDue, OrderPlace } from '../../core/day/listedOrder.ts'
import type { OrderSite } from './readOrder.ts'

/** What an order of a list says beside what the form asks. */
export interface ListedWith {
  readonly due?: OrderDue
  readonly place?: OrderPlace
  readonly laboratory?: string
}

/** One order within a file: its own text, as `readOrder` reads it. */
export interface OrderPiece {
  /** Where in the file, for a person to find it: a row, or an order number. */
  readonly where: string
  readonly text: string
  readonly with: ListedWith
  /** What of it cannot be taken for what it should be. */
  readonly faults?: readonly string[]
}

export interface OrdersSite extends OrderSite {
  /** Minutes east of UTC, for times that are written without a zone. */
  readonly offset_min: number
}
