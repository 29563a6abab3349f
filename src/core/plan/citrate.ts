import type { TubeRow } from '../catalogue/catalogue.ts'

/** Above this the fixed citrate of a tube is too much for the little plasma, percent (CLSI H21 6th ed. 2024). */
export const CITRATE_HAEMATOCRIT_pct = 55

/**
 * Citrate solution that suits a blood volume at a high haematocrit, mL:
 * blood × (100 - Hct) / (595 - Hct). CLSI H21 6th ed. 2024, as adapted by a haemostasis teaching site.
 * For the laboratory to act on; nobody opens or adjusts a tube at the bedside.
 */
export function citrateFor_mL(blood_mL: number, haematocrit_pct: number): number {
  return (blood_mL * (100 - haematocrit_pct)) / (595 - haematocrit_pct)
}

/** Least blood a tube may hold, mL: its draw volume times its least fill (citrate: 90 %, CLSI H21 6th ed. 2024). */
export function leastFill_mL(tube: TubeRow): number {
  return Math.round(tube.nominal_mL * tube.leastFill_pct * 10) / 1000
}

/** Most air that may enter a tube before it is short, mL. */
export function largestDeadVolume_mL(tube: TubeRow): number {
  return Math.round((tube.nominal_mL - leastFill_mL(tube)) * 1000) / 1000
}
