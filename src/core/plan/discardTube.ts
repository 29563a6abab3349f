import type { Additive } from '../catalogue/additives.ts'
import type { NeedleSet } from '../order/order.ts'
import type { UsableTube } from './usableStock.ts'

// The three rules here: laboratory training pages and a university laboratory collection page; that none is needed
// after another tube: CLSI GP41, from memory.

/**
 * A discard tube is needed when a winged set would give the citrate tube the tubing's air: citrate is the first tube
 * and nothing has filled the line yet.
 */
export function needsDiscard(
  set: NeedleSet,
  inOrder: readonly Additive[],
  linePrimed: boolean,
): boolean {
  return set.kind === 'winged' && !linePrimed && inOrder[0] === 'citrate'
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
