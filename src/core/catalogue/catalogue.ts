import type { Handling } from './handling.ts'
import type { Additive, TubeTrait } from './additives.ts'
import type { Norms } from './norms.ts'
import type { TubePreference } from './preferences.ts'
import type { SearchWords } from './searchWords.ts'
import type { DoseRow, SeriesRow } from './series.ts'

export const SPECIMEN_KINDS = ['serum', 'plasma', 'blood', 'culture'] as const
export type SpecimenKind = (typeof SPECIMEN_KINDS)[number]

/** One kind of specimen a test can be run on, from one additive. */
export interface Need {
  readonly kind: SpecimenKind
  readonly additive: Additive
}

/** A test as the site's catalogue describes it. Volumes are of the specimen (serum, plasma, ...), not of blood. */
export interface TestRow {
  readonly code: string
  readonly name: string
  readonly aliases: readonly string[]
  /**
   * Any one of these will do, the preferred one first; each additive at most once. What is written as a group
   * (`serum`) stands in the usual preference of that group.
   */
  readonly accepts: readonly Need[]
  readonly least_mL: number
  readonly preferred_mL: number
  /** `open`: with any open test; `alone`: a tube of its own; any other word: only with tests of the same word. */
  readonly sharing: string
  /** Its tube goes to transfusion: its label bears what a transfusion laboratory asks for. */
  readonly transfusion?: boolean
  /** Cannot be measured in blood from a finger or heel. */
  readonly notCapillary?: true
  /** What a tube for it must not have; `accepts` names no such tube. */
  readonly neverIn?: readonly TubeTrait[]
  readonly handling: readonly Handling[]
  readonly fasting: boolean
  /** Minutes from collection to the end of the specimen's life as drawn (unspun). */
  readonly timeLimit_min?: number
  /** The same for a patient on heparin. */
  readonly timeLimitHeparin_min?: number
  /** When to draw, in words: after the last dose, before the next, at what hour. */
  readonly timing?: string
  readonly loinc?: string
  readonly localCode?: string
  readonly source: string
}

/**
 * `evacuated`: draws itself full through a holder. `micro`: filled drop by drop or from a syringe. `syringe`: drawn by
 * its plunger. `card`: paper for drops. `bottle`: a culture bottle, which draws but does not stop.
 */
export const TUBE_KINDS = ['evacuated', 'micro', 'syringe', 'card', 'bottle'] as const
export type TubeKind = (typeof TUBE_KINDS)[number]

/** Whether its vacuum ends the filling, or a person who stops at a mark. */
export const FILLS_BY = ['vacuum', 'mark'] as const
export type FillsBy = (typeof FILLS_BY)[number]

/** A tube as its label describes it. */
export interface TubeRow {
  readonly code: string
  readonly name: string
  readonly additive: Additive
  /** Draw volume on the label, mL of blood. */
  readonly nominal_mL: number
  /** Inner volume of the empty stoppered tube, mL; with the draw volume it gives the vacuum. */
  readonly inner_mL: number
  readonly kind: TubeKind
  readonly fillsBy: FillsBy
  /** Blood that no test gets, whatever is in the tube: under the gel, on the wall, in the sampler's reach, mL. */
  readonly dead_mL: number
  /** Least acceptable fill, percent of the draw volume. */
  readonly leastFill_pct: number
  /** Less than the draw volume may be planned for small patients, down to the least fill. */
  readonly partialFill?: boolean
  readonly inversionsMin: number
  readonly inversionsMax: number
  readonly clot_min?: number
  /** The site's own word for the closure. A label only: nothing is decided by it. */
  readonly closure: string
  readonly localCode?: string
  readonly source: string
}

export interface Catalogue {
  readonly version: string
  readonly tests: readonly TestRow[]
  readonly tubes: readonly TubeRow[]
  readonly norms: Norms
  /** How the site wants groups of tests drawn; absent for no wish of its own. */
  readonly preferences?: readonly TubePreference[]
  /** Orders that are drawn several times; absent where the site knows none. */
  readonly series?: readonly SeriesRow[]
  /** Levels for which the last dose is asked. */
  readonly doses?: readonly DoseRow[]
  /** What tests are looked for by; absent where the site has no words of its own. */
  readonly search?: SearchWords
}

/**
 * Tubes of one lot on hand; needle sets and labels too, by codes of their own (`otherSupplies.ts`). `expires` is the
 * last day of use, `YYYY-MM-DD`.
 */
export interface StockTube {
  readonly tubeCode: string
  readonly lot: string
  readonly expires: string
  readonly count: number
}

export function findTest(catalogue: Catalogue, code: string): TestRow | undefined {
  return catalogue.tests.find((test) => test.code === code)
}

export function findTube(catalogue: Catalogue, code: string): TubeRow | undefined {
  return catalogue.tubes.find((tube) => tube.code === code)
}
