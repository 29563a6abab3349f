import type { Wall } from '../order/order.ts'
import type { Backing } from '../policy/policy.ts'

/** A number the planner assumes, with where it comes from. */
export interface Norm {
  readonly value: number
  readonly source: string
  readonly backing: Backing
}

/** Haematocrit assumed when none is given, for ages from `fromAge_days` up to the next row. */
export interface HaematocritNorm {
  readonly fromAge_days: number
  readonly sex: 'female' | 'male' | 'any'
  readonly pct: number
  readonly source: string
  readonly backing: Backing
}

export interface NeedleBore {
  readonly gauge: number
  readonly wall: Wall
  readonly bore_mm: number
  readonly source: string
  readonly backing: Backing
}

/** Single values the planner and the flow physics assume. The unit ends the name. */
export const NORM_KEYS = [
  'serumLoss_pct',
  'wholeBloodLoss_pct',
  'tubeReserve_pct',
  'bodyTemperature_C',
  'ambient_kPa',
  'veinBandOn_kPa',
  'veinBandTight_kPa',
  'veinBandOff_kPa',
  'plasmaViscosity_mPas',
  'bloodViscosity_mPas',
  'bloodViscosityHaematocrit_pct',
  'viscositySpread_pct',
  'viscosityPerDegree_pct',
  'bloodDensity_kgm3',
  'endLossFactor',
  'rearNeedle_mm',
  'boreTolerance_mm',
  'fullAt_pct',
  'bandToFlash_s',
  'tubeChange_s',
] as const
export type NormKey = (typeof NORM_KEYS)[number]

export interface Norms {
  readonly values: Readonly<Record<NormKey, Norm>>
  readonly haematocrit: readonly HaematocritNorm[]
  readonly bores: readonly NeedleBore[]
}

export function norm(norms: Norms, key: NormKey): number {
  return norms.values[key].value
}
