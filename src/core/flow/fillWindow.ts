import type { TubeRow } from '../catalogue/catalogue.ts'
import { norm, type Norms } from '../catalogue/norms.ts'
import type { NeedleSet } from '../order/order.ts'
import { fillTime_s, type FlowPath } from './fillTime.ts'
import { bloodViscosity_mPas } from './viscosity.ts'

/** Seconds from first blood in the tube to full. A window from stated assumptions, not a promise. */
export interface FillWindow {
  readonly early_s: number
  readonly expected_s: number
  readonly late_s: number
}

export interface FlowConditions {
  readonly norms: Norms
  readonly needleSet: NeedleSet
  readonly haematocrit_pct: number
  readonly temperature_C: number
}

/**
 * When a tube is likely to be full, s from first blood in it. `full` means `fullAt_pct` of the draw volume, because
 * the last drops come ever more slowly.
 * Expected: bore as listed, band on. Early: thin-walled needle, thin blood, tight band. Late: bore at its lower
 * tolerance, thick blood, band off. A window from assumptions: no measured fill rates by gauge were found.
 */
export function fillWindow(conditions: FlowConditions, tube: TubeRow): FillWindow {
  const { norms } = conditions
  const spread = norm(norms, 'viscositySpread_pct') / 100
  const bore = needleBore_mm(norms, conditions.needleSet.gauge)
  const time = (needleBore: number, thickness: number, vein_kPa: number): number => {
    const path = flowPath(conditions, needleBore, thickness, vein_kPa)
    const full_mL = (tube.nominal_mL * norm(norms, 'fullAt_pct')) / 100
    return fillTime_s(path, tube, full_mL)
  }
  const late = time(
    bore - norm(norms, 'boreTolerance_mm'),
    1 + spread,
    norm(norms, 'veinBandOff_kPa'),
  )
  return {
    early_s: tenth(
      time(bore * norm(norms, 'thinWallBore_ratio'), 1 - spread, norm(norms, 'veinBandTight_kPa')),
    ),
    expected_s: tenth(time(bore, 1, norm(norms, 'veinBandOn_kPa'))),
    late_s: tenth(late),
  }
}

/** Bore of a regular-wall needle of that gauge, mm. */
function needleBore_mm(norms: Norms, gauge: number): number {
  const row = norms.bores.find((bore) => bore.gauge === gauge)
  if (!row) throw new RangeError(`No bore on file for a ${gauge} gauge needle`)
  return row.bore_mm
}

function flowPath(
  { norms, needleSet, haematocrit_pct, temperature_C }: FlowConditions,
  needleBore: number,
  thickness: number,
  vein_kPa: number,
): FlowPath {
  return {
    needleBore_mm: needleBore,
    needle_mm: needleSet.needle_mm,
    rearNeedle_mm: norm(norms, 'rearNeedle_mm'),
    tubing_mm: needleSet.kind === 'winged' ? needleSet.tubing_mm : 0,
    tubingBore_mm: needleSet.tubingBore_mm,
    viscosity_mPas: thickness * bloodViscosity_mPas(norms, haematocrit_pct, temperature_C),
    density_kgm3: norm(norms, 'bloodDensity_kgm3'),
    endLossFactor: norm(norms, 'endLossFactor'),
    vein_kPa,
    ambient_kPa: norm(norms, 'ambient_kPa'),
  }
}

const tenth = (s: number): number => Math.round(s * 10) / 10
