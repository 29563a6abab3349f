import { norm, type Norms } from '../catalogue/norms.ts'

/**
 * Viscosity of whole blood at high shear, mPa·s.
 * Straight in the logarithm between plasma (haematocrit 0) and normal blood at 37 °C, as blood viscosity is found to
 * be straight in a semi-logarithmic plot against haematocrit (Lichtman 1982); 1.39 and 3.26 mPa·s are healthy-adult
 * means at 100 /s. Falls by a fixed per cent for each degree warmer (from memory).
 */
export function bloodViscosity_mPas(
  norms: Norms,
  haematocrit_pct: number,
  temperature_C: number,
): number {
  const plasma = norm(norms, 'plasmaViscosity_mPas')
  const blood = norm(norms, 'bloodViscosity_mPas')
  const perPct = Math.log(blood / plasma) / norm(norms, 'bloodViscosityHaematocrit_pct')
  const perDegree = norm(norms, 'viscosityPerDegree_pct') / 100
  return plasma * Math.exp(perPct * haematocrit_pct - perDegree * (temperature_C - 37))
}
