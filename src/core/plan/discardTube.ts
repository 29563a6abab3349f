import type { Additive } from '../catalogue/additives.ts'
import type { NeedleSet } from '../order/order.ts'
import { lineVolume_mL } from '../flow/lineVolume.ts'
import type { ChosenTube } from './chosen.ts'
import { leastFill_mL } from './citrate.ts'
import type { UsableTube } from './usableStock.ts'

// The rules for citrate here: laboratory training pages and a university laboratory collection page; that
// none is needed after another tube: CLSI GP41, from memory.

/**
 * A discard tube is needed when a winged set would give its air to a first tube that cannot spare it: citrate, or a
 * vacuum tube that would be left below its least fill or with less than its tests need.
 * Call it only while nothing has filled the line yet.
 */
export function needsDiscard(set: NeedleSet, first: ChosenTube | undefined): boolean {
  // The tubing's air goes into a syringe and not into a tube.
  if (!first || set.kind !== 'winged' || set.syringe_mL !== undefined) return false
  const { tube } = first.usable
  if (tube.additive === 'citrate') return true
  if (tube.fillsBy === 'mark') return false
  const held_mL = tube.nominal_mL - lineVolume_mL(set)
  const needed_mL = first.needs_mL.reduce((sum, need) => sum + need, tube.dead_mL)
  return held_mL < Math.max(leastFill_mL(tube), needed_mL)
}

/**
 * Whether a tube may be the discard: another citrate tube or one without any additive. Never a clot activator, which
 * would be carried into the citrate tube.
 */
export function mayBeDiscard(additive: Additive): boolean {
  return additive === 'citrate' || additive === 'plain' || additive === 'discard'
}

/** The smallest fitting tube on hand of which `left` says one is left. */
export function chooseDiscard(
  stock: readonly UsableTube[],
  left: (tubeCode: string) => number,
): UsableTube | undefined {
  return stock
    .filter(({ tube }) => mayBeDiscard(tube.additive) && left(tube.code) > 0)
    .sort(
      (a, b) => a.tube.nominal_mL - b.tube.nominal_mL || a.tube.code.localeCompare(b.tube.code),
    )[0]
}
