import type { TubeRow } from '../catalogue/catalogue.ts'
import { norm, type Norms } from '../catalogue/norms.ts'
import { usualWall, type NeedleSet, type Wall } from '../order/order.ts'
import { correctionOf, type FillCorrection } from './fillCorrection.ts'
import { fillTime_s, type FlowPath } from './fillTime.ts'
import { bloodViscosity_mPas } from './viscosity.ts'

/** Seconds from first blood in the tube to full. A window from stated assumptions, not a promise. */
export interface FillWindow {
  readonly early_s: number
  readonly expected_s: number
  readonly late_s: number
  /** False where a late tube says nothing about the flow. Absent in plans from before it was told apart. */
  readonly trusted?: boolean
}

export interface FlowConditions {
  readonly norms: Norms
  readonly needleSet: NeedleSet
  readonly haematocrit_pct: number
  readonly temperature_C: number
  /** What the site measured of its own sets and somebody accepted. */
  readonly corrections?: readonly FillCorrection[] | undefined
}

/**
 * When a tube is likely to be full, s from first blood in it. `full` means `fullAt_pct` of the draw volume, because
 * the last drops come ever more slowly.
 * @param fill_mL where the filling is stopped, if that is before the draw volume.
 * All three times the site's own correction for the set, where it has one.
 * Expected: bore as listed for gauge and wall, band on. Early: bore at its upper tolerance, thin blood, tight band.
 * Late: bore at its lower tolerance, thick blood, band off. Where nobody read the wall from the packet, early is the
 * next thinner wall and late the regular one.
 */
export function fillWindow(
  conditions: FlowConditions,
  tube: TubeRow,
  fill_mL: number = tube.nominal_mL,
): FillWindow {
  const { norms, needleSet } = conditions
  const spread = norm(norms, 'viscositySpread_pct') / 100
  const tolerance = norm(norms, 'boreTolerance_mm')
  const { gauge, kind, wall } = needleSet
  const factor = correctionOf(conditions.corrections, needleSet)
  const usual = wall ?? usualWall(kind)
  const bore = (of: Wall): number => needleBore_mm(norms, gauge, of)
  const time = (needleBore: number, thickness: number, vein_kPa: number): number => {
    const path = flowPath(conditions, needleBore, thickness, vein_kPa)
    const full_mL = (fill_mL * norm(norms, 'fullAt_pct')) / 100
    return factor * fillTime_s(path, tube, full_mL)
  }
  const widest = wall ? bore(wall) + tolerance : bore(thinner(usual))
  const narrowest = bore(wall ?? 'regular') - tolerance
  return {
    early_s: tenth(time(widest, 1 - spread, norm(norms, 'veinBandTight_kPa'))),
    expected_s: tenth(time(bore(usual), 1, norm(norms, 'veinBandOn_kPa'))),
    late_s: tenth(time(narrowest, 1 + spread, norm(norms, 'veinBandOff_kPa'))),
    trusted: isTrusted(needleSet, tube),
  }
}

const thinner = (wall: Wall): Wall => (wall === 'regular' ? 'thin' : 'ultraThin')

/**
 * Whether a tube that is not full at the late end may be taken for one that flows slowly. Only where the window rests
 * on what is known: a vacuum that ends the filling, a wall that was read from the packet, and a gauge whose times could
 * be held against published ones (21 and 23 gauge; 22 lies between them). For 25 gauge only a comparison is published
 * (J Appl Lab Med 2017;2:201). A wrong flag would put doubt on potassium in the record.
 */
function isTrusted({ gauge, wall }: NeedleSet, { fillsBy }: TubeRow): boolean {
  return fillsBy === 'vacuum' && wall !== undefined && gauge !== 25
}

/** Bore of a needle of that gauge and wall, mm. */
function needleBore_mm(norms: Norms, gauge: number, wall: Wall): number {
  const row = norms.bores.find((bore) => bore.gauge === gauge && bore.wall === wall)
  if (!row) throw new RangeError(`No bore on file for a ${gauge} gauge needle of ${wall} wall`)
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
