import type { FillsBy } from '../catalogue/catalogue.ts'
import type { Additive } from '../catalogue/additives.ts'
import type { SkinPlace } from '../order/collecting.ts'
import type { Handling } from '../catalogue/handling.ts'
import type { FillWindow } from '../flow/fillWindow.ts'
import type { PlanNoticeCode } from './planTexts.ts'

export const TUBE_ROLES = ['specimen', 'discard', 'culture'] as const
export type TubeRole = (typeof TUBE_ROLES)[number]

/** How full a tube that was on the holder became. */
export const FILLS = ['full', 'short', 'empty'] as const
export type Fill = (typeof FILLS)[number]

/** One tube of the rack, in the order it is to be drawn. */
export interface PlannedTube {
  /** `t1`, `t2`, ... in order of draw; unique within the draw, also after a re-plan. */
  readonly id: string
  readonly tubeCode: string
  readonly name: string
  readonly role: TubeRole
  readonly additive: Additive
  /** The site's own word for the closure; a label only, nothing is decided by it. */
  readonly closure: string
  /** `mark`: a person stops at a mark, no vacuum ends the filling. Absent in plans from before it was told apart. */
  readonly fillsBy?: FillsBy
  /** Draw volume on the label, mL. */
  readonly nominal_mL: number
  /** Blood to fill in, mL, where it is less than the label's; see `plannedFill_mL`. */
  readonly planned_mL?: number
  /** Least acceptable blood, mL; below it the tube is short. */
  readonly least_mL: number
  readonly inversions: { readonly min: number; readonly max: number }
  readonly fill: FillWindow
  /** Catalogue codes of the tests this tube serves; empty for a discard tube. */
  readonly tests: readonly string[]
  /** Least blood each of `tests` needs of this tube, mL, index for index. */
  readonly needs_mL?: readonly number[]
  /** Blood that none of its tests gets, mL. */
  readonly dead_mL?: number
  readonly handling: readonly Handling[]
  /** Minutes to stand upright before the spin, for serum tubes. */
  readonly clot_min?: number
  /** Minutes from collection until the first test in it is out of time. */
  readonly timeLimit_min?: number
  /** The test that sets that limit; absent in plans from before it was told. */
  readonly timeLimitOf?: string
  readonly lot?: string
  readonly expires?: string
  /** Why this tube is in the rack and why here, one or two plain sentences. */
  readonly reason: string
}

/** Blood that a tube is to be filled with, mL: with that much in it, it is complete. */
export function plannedFill_mL({
  nominal_mL,
  planned_mL,
}: Pick<PlannedTube, 'nominal_mL' | 'planned_mL'>): number {
  return planned_mL ?? nominal_mL
}

/** Paper that drops soak into, and no tube. */
export function isCard(tube: Pick<PlannedTube, 'additive'> | undefined): boolean {
  return tube?.additive === 'filterPaper'
}

/**
 * A micro-collection tube: it has no vacuum, does not fit a holder and is filled to its mark drop by drop. A plan does
 * not keep of which kind its catalog row was.
 */
export function isMicro(
  tube: Pick<PlannedTube, 'role' | 'additive' | 'fillsBy'> | undefined,
): boolean {
  return (
    tube?.fillsBy === 'mark' &&
    tube.role === 'specimen' &&
    tube.additive !== 'filterPaper' &&
    tube.additive !== 'heparinBalanced'
  )
}

/** A sentence for the person. The code is the same in every language; a plan out of an old log may hold others. */
export interface PlanNotice {
  readonly code: PlanNoticeCode
  readonly text: string
  /** Where the rule comes from, or `common practice, no source`. */
  readonly source?: string
}

export interface BloodVolume {
  readonly draw_mL: number
  readonly earlier_mL: number
  readonly limit_mL?: number
  readonly period_mL?: number
  readonly bodyVolume_mL?: number
  readonly percentOfBody?: number
  readonly source: string
}

/**
 * The rack for one order. `problems` stop the draw; `warnings` are read before the needle; `details` are there for
 * whoever looks. Nothing is dropped without a word.
 */
export interface Plan {
  readonly tubes: readonly PlannedTube[]
  readonly problems: readonly PlanNotice[]
  readonly warnings: readonly PlanNotice[]
  /** What was assumed and what follows from it; absent in a plan from before it was told apart. */
  readonly details?: readonly PlanNotice[]
  /** Tests that no tube in the rack serves, each with the reason. */
  readonly uncovered: readonly { readonly test: string; readonly reason: string }[]
  readonly blood: BloodVolume
  /** A way of collecting that would do as well and spare the patient blood or a vein; a person decides. */
  readonly advises?: SkinPlace
  /**
   * Predicted seconds from band on to the first tube full: the band comes off as blood enters it. `offDuring`, in plans
   * from before, is the tube by whose filling the band should be off.
   */
  readonly band: { readonly predicted_s: number; readonly offDuring: string | undefined }
}
