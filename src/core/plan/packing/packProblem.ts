import type { Cost, Kind } from './component.ts'
import type { DemandRow, RankRow } from './packing.ts'

/** Items to be put in tubes. Volumes are whole µL. */
export interface PackProblem {
  /** `rows[item][kind]`: µL the item takes in that kind of tube; `undefined` where it may not go. */
  readonly rows: readonly DemandRow[]
  /** `ranks[item][kind]`: place of that kind in the item's list of preferences, 0 for the first. Absent: all alike. */
  readonly ranks?: readonly RankRow[]
  /** Items meet in a tube only if these are equal; an item whose word begins with `alone` meets none. */
  readonly sharing: readonly string[]
  readonly kinds: readonly Kind[]
}

export interface PackedTube {
  readonly kind: number
  readonly items: readonly number[]
}

export interface Packing {
  readonly tubes: readonly PackedTube[]
  readonly out: readonly number[]
  readonly cost: Cost & { readonly kinds: number }
  /** False when the search stopped before it could show that nothing better exists. */
  readonly proven: boolean
}
