import type { NeedleSet } from '../order/order.ts'

/** Volume of a round bore, mL. */
export function boreVolume_mL(bore_mm: number, length_mm: number): number {
  return ((Math.PI / 4) * bore_mm * bore_mm * length_mm) / 1000
}

/**
 * Air in the tubing of a set before blood has filled it, mL: what the first tube takes instead of blood.
 * A straight needle has no tubing and counts as none.
 */
export function lineVolume_mL(set: NeedleSet): number {
  return set.kind === 'winged' ? boreVolume_mL(set.tubingBore_mm, set.tubing_mm) : 0
}
