import type { SpecimenKind } from '../catalogue/catalogue.ts'
import type { Sex } from '../order/order.ts'
import { norm, type Norms } from '../catalogue/norms.ts'

/**
 * Share of a tube's blood that becomes usable specimen, 0..1.
 * Serum and plasma: what is not cells, less the stated loss (laboratory handbooks: draw 2 to 2.5 times the serum
 * needed; the loss is set so that 5 mL of blood give 2 mL of serum at a haematocrit of 45 %).
 * Citrate plasma is reckoned without the citrate solution. Culture bottles are used whole.
 */
export function specimenYield(kind: SpecimenKind, haematocrit_pct: number, norms: Norms): number {
  if (kind === 'culture') return 1
  if (kind === 'blood') return 1 - norm(norms, 'wholeBloodLoss_pct') / 100
  return (1 - haematocrit_pct / 100) * (1 - norm(norms, 'serumLoss_pct') / 100)
}

/** Blood to draw for a volume of specimen, whole µL, rounded up. */
export function bloodFor_uL(specimen_mL: number, share: number): number {
  // Without the small allowance 0.3 / 0.9 style rounding noise would cost a whole microlitre.
  return Math.ceil((specimen_mL * 1000) / share - 1e-6)
}

/** The haematocrit assumed for an age and sex when none is given. */
export function assumedHaematocrit(
  norms: Norms,
  ageDays: number,
  sex: Sex | undefined,
): { readonly pct: number; readonly source: string } {
  const reached = norms.haematocrit.filter((row) => row.fromAge_days <= ageDays)
  const from = Math.max(...reached.map((row) => row.fromAge_days))
  const rows = reached.filter((row) => row.fromAge_days === from)
  const row = rows.find((r) => r.sex === sex) ?? rows.find((r) => r.sex === 'any')
  if (!row) throw new RangeError(`No hematocrit on file for an age of ${ageDays} days`)
  return row
}
