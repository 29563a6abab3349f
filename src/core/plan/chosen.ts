import type { TestRow } from '../catalogue/catalogue.ts'
import type { UsableTube } from './usableStock.ts'

/** A tube to be drawn with the tests it will serve, and the blood they need of it. */
export interface ChosenTube {
  readonly usable: UsableTube
  readonly tests: readonly TestRow[]
  /** Least blood each of `tests` needs, mL, index for index. */
  readonly needs_mL: readonly number[]
  readonly used_mL: number
}

export interface Chosen {
  readonly tubes: readonly ChosenTube[]
  readonly uncovered: readonly TestRow[]
  /** `least`: planned on minimum volumes because the preferred ones did not fit. */
  readonly level: 'preferred' | 'least'
  /** Tests for which only the minimum fits any tube on hand, though the rest have their preferred volume. */
  readonly reduced: readonly TestRow[]
  readonly proven: boolean
  /** True when no choice kept to the blood allowed; the tubes then ignore it. */
  readonly overLimit: boolean
}
