import type { TimePoint } from '../order/sitting.ts'

/** What an order can name: a test, or a series of them. */
export interface Orderable {
  readonly code: string
  readonly name: string
  readonly aliases: readonly string[]
  readonly loinc?: string
  readonly localCode?: string
}

/** One order that is drawn several times, as the site's catalogue describes it. */
export interface SeriesRow extends Orderable {
  /** An order that names all of its tests, each as often, means the series. */
  readonly recognized?: boolean
  readonly sittings: readonly TimePoint[]
  readonly source: string
}

/** Levels of a drug, for which somebody asks when the last dose was. */
export interface DoseRow {
  /** Catalogue codes. */
  readonly tests: readonly string[]
  /** Hours that must have passed since the last dose; missing: not known or not to be said so. */
  readonly least_h?: number
  readonly source: string
}
