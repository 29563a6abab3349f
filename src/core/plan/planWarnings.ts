import { age_years } from '../bloodLimit/age.ts'
import { findTest } from '../catalogue/catalogue.ts'
import { limit } from '../policy/policy.ts'
import type { Chosen } from './chooseTubes.ts'
import {
  CITRATE_HAEMATOCRIT_pct,
  citrateFor_mL,
  largestDeadVolume_mL,
  leastFill_mL,
} from './citrate.ts'
import { gaugeRemark } from './gaugeAdvice.ts'
import { lineVolume_mL } from '../flow/lineVolume.ts'
import type { Plan, PlannedTube, PlanNotice } from './plan.ts'
import type { PlanInput } from './planInput.ts'
import type { PlanTexts } from './planTexts.ts'
import { atLeast_mL, mL, named, notice } from './planWords.ts'
import { usableStock } from './usableStock.ts'

type Haematocrit = { readonly pct: number; readonly given: boolean; readonly source: string }

/** Everything worth saying before the needle is in that does not stop the draw. */
export function planWarnings(
  input: PlanInput,
  chosen: Chosen,
  tubes: readonly PlannedTube[],
  band: Plan['band'],
  haematocrit: Haematocrit,
): PlanNotice[] {
  return [
    ...searchWarnings(chosen, input.texts.plan),
    ...stockWarnings(input),
    ...citrateWarnings(chosen, haematocrit, input.texts.plan),
    ...lineWarnings(input, chosen, tubes),
    ...patientWarnings(input, haematocrit),
    ...bandWarnings(input, tubes, band),
  ]
}

function searchWarnings(chosen: Chosen, texts: PlanTexts): PlanNotice[] {
  const { notices } = texts
  const tests = named(
    chosen.reduced.map((test) => test.name),
    texts,
  )
  return [
    ...(!chosen.proven && chosen.tubes.length > 0 ? [notice('notProven', notices.notProven)] : []),
    ...(chosen.level === 'least' ? [notice('leastVolumes', notices.leastVolumes)] : []),
    ...(chosen.reduced.length > 0
      ? [notice('reducedVolume', notices.reducedVolume, { tests })]
      : []),
  ]
}

function stockWarnings({ catalogue, stock, today, texts }: PlanInput): PlanNotice[] {
  return usableStock(catalogue, stock, today).expired.map(({ lot, tubeCode, expires }) =>
    notice('expiredLot', texts.plan.notices.expiredLot, { lot, tubeCode, expires }),
  )
}

function citrateWarnings(
  chosen: Chosen,
  { pct }: Haematocrit,
  { notices }: PlanTexts,
): PlanNotice[] {
  return chosen.tubes
    .filter(({ usable }) => usable.tube.additive === 'citrate')
    .slice(0, 1)
    .flatMap(({ usable: { tube } }) => {
      const fill = notice(
        'citrateFill',
        notices.citrateFill,
        { least_mL: atLeast_mL(leastFill_mL(tube)), air_mL: largestDeadVolume_mL(tube) },
        'CLSI H21 6th ed. 2024, as quoted by a hemostasis teaching site: at least 90 % of the draw volume',
      )
      if (pct <= CITRATE_HAEMATOCRIT_pct) return [fill]
      const high = notice(
        'citrateHaematocrit',
        notices.citrateHaematocrit,
        {
          haematocrit_pct: pct,
          limit_pct: CITRATE_HAEMATOCRIT_pct,
          suited_mL: citrateFor_mL(tube.nominal_mL, pct).toFixed(2),
        },
        'CLSI H21 6th ed. 2024, as adapted by a hemostasis teaching site',
      )
      return [fill, high]
    })
}

/** A tube other than a discard that leads the rack takes the tubing's air and ends up short by it. */
function lineWarnings(
  input: PlanInput,
  chosen: Chosen,
  tubes: readonly PlannedTube[],
): PlanNotice[] {
  const line_mL = lineVolume_mL(input.needleSet)
  const first = tubes[0]
  if (!first || first.role !== 'specimen' || line_mL < 0.05) return []
  const used_mL = chosen.tubes.find(
    ({ usable, tests }) => usable.tube.code === first.tubeCode && tests[0]?.code === first.tests[0],
  )?.used_mL
  const tight = used_mL !== undefined && used_mL + line_mL > first.nominal_mL
  return [
    notice(
      'lineAir',
      input.texts.plan.notices.lineAir[tight ? 'tight' : 'enough'],
      { air_mL: mL(line_mL) },
      'Calculated from the bore and length of the tubing',
    ),
  ]
}

function patientWarnings(input: PlanInput, haematocrit: Haematocrit): PlanNotice[] {
  const { patient, preparation, needleSet, today } = input
  const texts = input.texts.plan
  const { notices } = texts
  const remark = gaugeRemark(
    needleSet,
    { vein: undefined, age_y: age_years(patient.birthDate, today) ?? 0 },
    texts,
  )
  const values = { haematocrit_pct: haematocrit.pct }
  return [
    ...(haematocrit.given
      ? []
      : [notice('haematocritAssumed', notices.haematocritAssumed, values, haematocrit.source)]),
    ...fastingWarnings(input),
    ...(preparation.latexAllergy ? [notice('latex', notices.latex)] : []),
    ...(preparation.faintedBefore ? [notice('faintedBefore', notices.faintedBefore)] : []),
    ...(remark ? [notice('gauge', remark, {}, 'common practice, no source')] : []),
  ]
}

function fastingWarnings(input: PlanInput): PlanNotice[] {
  const { catalogue, order, preparation, policy, texts } = input
  const { fasting } = texts.plan.notices
  const wanting = order.tests.flatMap((code) => {
    const test = findTest(catalogue, code)
    return test?.fasting ? [test.name] : []
  })
  const least_h = limit(policy, 'fastingLeast_h')
  const { fasted_h } = preparation
  if (wanting.length === 0 || (fasted_h !== undefined && fasted_h >= least_h)) return []
  return [
    notice(
      'fasting',
      fasted_h === undefined ? fasting.notAsked : fasting.tooShort,
      { tests: named(wanting, texts.plan), least_h, fasted_h: fasted_h ?? '' },
      policy.limits.fastingLeast_h.source,
    ),
  ]
}

function bandWarnings(
  { policy, texts }: PlanInput,
  tubes: readonly PlannedTube[],
  { predicted_s, offDuring }: Plan['band'],
): PlanNotice[] {
  const limit_s = limit(policy, 'bandLimit_s')
  const due = tubes.findIndex((tube) => tube.id === offDuring)
  if (predicted_s <= limit_s || due < 0) return []
  return [
    notice(
      'bandTooLong',
      texts.plan.notices.bandTooLong,
      { predicted_s, limit_s, position: due + 1, tube: tubes[due]?.name ?? '' },
      policy.limits.bandLimit_s.source,
    ),
  ]
}
