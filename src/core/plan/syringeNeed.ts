import { lineVolume_mL } from '../flow/lineVolume.ts'
import { SYRINGES_mL, type NeedleSet, type SyringeSize } from '../order/order.ts'
import { limit, type Policy } from '../policy/policy.ts'
import { plannedFill_mL, type PlannedTube } from './plan.ts'
import type { PlanInput } from './planInput.ts'

/** Drawn from a vein into a syringe; from the skin there is none, whatever set is named. */
export const drawsBySyringe = ({
  collecting,
  needleSet,
}: Pick<PlanInput, 'collecting' | 'needleSet'>): boolean =>
  !collecting && needleSet.syringe_mL !== undefined

/**
 * Blood that no tube gets, mL: what stays in tip and transfer device, and what fills the tubing of a winged set, whose
 * air comes into the syringe instead. Nothing without a syringe.
 */
export function syringeStays_mL(set: NeedleSet, policy: Policy): number {
  if (set.syringe_mL === undefined) return 0
  return limit(policy, 'syringeStays_mL') + lineVolume_mL(set)
}

/** What is to be pulled into the syringe for these tubes, mL, up to the next tenth. */
export function syringeNeed_mL(
  tubes: readonly Pick<PlannedTube, 'nominal_mL' | 'planned_mL'>[],
  set: NeedleSet,
  policy: Policy,
): number {
  const blood_mL = tubes.reduce((sum, tube) => sum + plannedFill_mL(tube), 0)
  return Math.ceil((blood_mL + syringeStays_mL(set, policy)) * 10 - 1e-6) / 10
}

/** The smallest syringe that holds so much; `undefined` where none does. */
export function syringeFor(need_mL: number): SyringeSize | undefined {
  return SYRINGES_mL.find((size) => size >= need_mL)
}
