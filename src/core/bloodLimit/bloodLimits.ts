import type { Backing } from '../policy/policy.ts'

/** Blood in the body per kg, for ages from `fromAge_days` up to the next row. */
export interface BodyVolumeRow {
  readonly fromAge_days: number
  readonly mL_per_kg: number
  readonly source: string
  readonly backing: Backing
}

/**
 * One published rule. Exactly one of `percentOfBody`, `mL_per_kg`, `mL` or `mLByWeight` gives the amount.
 * `stop` ends the plan when the amount would be passed; `warn` only says so.
 */
export interface LimitRule {
  readonly id: string
  readonly per: 'draw' | 'period'
  readonly fromAge_y: number
  /** The rule holds below this age; absent for no upper end. */
  readonly belowAge_y?: number
  readonly percentOfBody?: number
  readonly mL_per_kg?: number
  readonly mL?: number
  /** First row whose `upTo_kg` is not below the weight; heavier patients are not covered by the rule. */
  readonly mLByWeight?: readonly { readonly upTo_kg: number; readonly mL: number }[]
  readonly whenPassed: 'stop' | 'warn'
  readonly source: string
  readonly backing: Backing
}

export interface BloodLimits {
  readonly version: string
  /** Without a weight nobody younger than this is drawn. */
  readonly weightNeededBelow_y: number
  /** Length of the period that earlier draws are summed over, days. */
  readonly period_days: number
  readonly bodyVolume: readonly BodyVolumeRow[]
  readonly rules: readonly LimitRule[]
}

/** Blood volume of a body, mL; `undefined` without a weight. */
export function bodyVolume_mL(
  limits: BloodLimits,
  ageDays: number,
  weight_kg: number | undefined,
): number | undefined {
  const row = limits.bodyVolume.filter((r) => r.fromAge_days <= ageDays).at(-1)
  return row === undefined || weight_kg === undefined ? undefined : row.mL_per_kg * weight_kg
}

/** A rule with its amount worked out for one patient. */
export interface Amount {
  readonly rule: LimitRule
  readonly mL: number
}

/** The rules that hold for a patient, strictest first. */
export function amountsFor(
  limits: BloodLimits,
  ageDays: number,
  ageYears: number,
  weight_kg: number | undefined,
): Amount[] {
  const body = bodyVolume_mL(limits, ageDays, weight_kg)
  return limits.rules
    .filter((rule) => ageYears >= rule.fromAge_y && ageYears < (rule.belowAge_y ?? Infinity))
    .flatMap((rule) => {
      const mL = amount_mL(rule, body, weight_kg)
      return mL === undefined ? [] : [{ rule, mL }]
    })
    .sort((a, b) => a.mL - b.mL)
}

function amount_mL(
  rule: LimitRule,
  body_mL: number | undefined,
  weight_kg: number | undefined,
): number | undefined {
  if (rule.mL !== undefined) return rule.mL
  if (weight_kg === undefined) return undefined
  if (rule.mL_per_kg !== undefined) return rule.mL_per_kg * weight_kg
  if (rule.percentOfBody !== undefined && body_mL !== undefined) {
    return (rule.percentOfBody / 100) * body_mL
  }
  return rule.mLByWeight?.find((row) => weight_kg <= row.upTo_kg)?.mL
}
