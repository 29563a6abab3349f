import type { NeedleKind } from '../../core/order/order.ts'
import type { Text } from '../../core/basics/fillText.ts'

/** What the list needs in tubes, sets and labels. */
export interface SuppliesTexts {
  readonly title: string
  readonly about: string
  /** `{done}` of `{n}` draws are planned. */
  readonly counting: Text
  readonly nothing: string
  readonly ofInvented: string
  readonly ofStock: string
  readonly notCountedStock: string
  /** `{n}` */
  readonly draws: Text
  /** `{names}` */
  readonly short: string
  /** One of `short`: `{name}`, `{n}` */
  readonly shortOf: string
  /** `{names}` */
  readonly usedUp: string
  /** `{names}`, `{days}` */
  readonly expires: string
  /** One of `expires`: `{name}`, `{n}`, `{day}` */
  readonly expiresOf: string
  /** `{names}` */
  readonly expired: string
  /** `{n}` orders. */
  readonly notCounted: Text
  readonly stopped: Text
  readonly leftOver: Text
  /** `{n}` draws. */
  readonly sittings: Text
  readonly columns: {
    readonly what: string
    readonly needed: string
    readonly onHand: string
    readonly shortBy: string
    /** `{days}` */
    readonly expiring: string
    readonly expired: string
  }
  readonly tubesTable: string
  readonly othersTable: string
  readonly enough: string
  readonly none: string
  /** `{gauge}` */
  readonly set: Readonly<Record<NeedleKind, string>>
  readonly labels: string
  readonly print: string
  /** `{at}` */
  readonly printed: string
}
