import { age_years } from '../bloodLimit/age.ts'
import { findTest } from '../catalogue/catalogue.ts'
import { limit } from '../policy/policy.ts'
import type { Chosen } from './chooseTubes.ts'
import { CITRATE_HAEMATOCRIT_pct, citrateFor_mL, largestDeadVolume_mL } from './citrate.ts'
import { mL, named } from './explainTube.ts'
import { gaugeRemark } from './gaugeAdvice.ts'
import { lineVolume_mL } from '../flow/lineVolume.ts'
import type { Plan, PlannedTube, PlanNotice } from './plan.ts'
import type { PlanInput } from './planInput.ts'
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
    ...searchWarnings(chosen),
    ...stockWarnings(input),
    ...citrateWarnings(chosen, haematocrit),
    ...lineWarnings(input, chosen, tubes),
    ...patientWarnings(input, haematocrit),
    ...bandWarnings(input, tubes, band),
  ]
}

function searchWarnings(chosen: Chosen): PlanNotice[] {
  const warnings: PlanNotice[] = []
  if (!chosen.proven && chosen.tubes.length > 0) {
    warnings.push({
      code: 'notProven',
      text: 'This order is too large to show that no smaller set of tubes exists. The set shown is valid.',
    })
  }
  if (chosen.level === 'least') {
    warnings.push({
      code: 'leastVolumes',
      text: 'Planned on minimum volumes: the preferred volumes do not fit the tubes on hand or the blood limit. Repeats may not be possible.',
    })
  }
  if (chosen.reduced.length > 0) {
    const names = named(chosen.reduced.map((test) => test.name))
    warnings.push({
      code: 'reducedVolume',
      text: `No tube on hand holds the preferred volume for ${names}; planned on the minimum.`,
    })
  }
  return warnings
}

function stockWarnings({ catalogue, stock, today }: PlanInput): PlanNotice[] {
  return usableStock(catalogue, stock, today).expired.map((lot) => ({
    code: 'expiredLot',
    text: `Lot ${lot.lot} of ${lot.tubeCode} expired on ${lot.expires} and is not used.`,
  }))
}

function citrateWarnings(chosen: Chosen, { pct }: Haematocrit): PlanNotice[] {
  return chosen.tubes
    .filter(({ usable }) => usable.tube.additive === 'citrate')
    .slice(0, 1)
    .flatMap(({ usable: { tube } }) => {
      const air = largestDeadVolume_mL(tube)
      const fill = {
        code: 'citrateFill',
        text: `The citrate tube must fill to ${mL(tube.nominal_mL - air)} mL or more; ${air} mL of air would make it short.`,
        source:
          'CLSI H21 6th ed. 2024, as quoted by a haemostasis teaching site: at least 90 % of the draw volume',
      }
      if (pct <= CITRATE_HAEMATOCRIT_pct) return [fill]
      const suited = citrateFor_mL(tube.nominal_mL, pct)
      const high = {
        code: 'citrateHaematocrit',
        text: `Hematocrit ${pct} % is above 55 %: the citrate in a standard tube is too much (${suited.toFixed(2)} mL would suit). Ask the laboratory for an adjusted tube before drawing. Do not adjust one yourself.`,
        source: 'CLSI H21 6th ed. 2024, as adapted by a haemostasis teaching site',
      }
      return [fill, high]
    })
}

/** A tube other than a discard that leads the rack takes the tubing's air and ends up short by it. */
function lineWarnings(
  input: PlanInput,
  chosen: Chosen,
  tubes: readonly PlannedTube[],
): PlanNotice[] {
  const line = lineVolume_mL(input.needleSet)
  const first = tubes[0]
  if (!first || first.role !== 'specimen' || line < 0.05) return []
  const used = chosen.tubes.find(
    ({ usable, tests }) => usable.tube.code === first.tubeCode && tests[0]?.code === first.tests[0],
  )?.used_mL
  const tight = used !== undefined && used + line > first.nominal_mL
  return [
    {
      code: 'lineAir',
      text: `The first tube takes ${mL(line)} mL of air from the tubing and holds that much less blood.${
        tight ? ' Its tests then have less than the planned volume.' : ''
      }`,
      source: 'Calculated from the bore and length of the tubing',
    },
  ]
}

function patientWarnings(input: PlanInput, haematocrit: Haematocrit): PlanNotice[] {
  const { catalogue, order, patient, preparation, policy, needleSet, today } = input
  const warnings: PlanNotice[] = []
  if (!haematocrit.given) {
    warnings.push({
      code: 'haematocritAssumed',
      text: `No hematocrit given: ${haematocrit.pct} % assumed for age and sex.`,
      source: haematocrit.source,
    })
  }
  const fasting = order.tests.flatMap((code) => {
    const test = findTest(catalogue, code)
    return test?.fasting ? [test.name] : []
  })
  const least = limit(policy, 'fastingLeast_h')
  const fasted = preparation.fasted_h
  if (fasting.length > 0 && (fasted === undefined || fasted < least)) {
    const what = fasted === undefined ? 'Fasting was not asked' : `Last food ${fasted} h ago`
    warnings.push({
      code: 'fasting',
      text: `${what}; ${named(fasting)} should be drawn after ${least} h without food. Ask the provider.`,
      source: policy.limits.fastingLeast_h.source,
    })
  }
  if (preparation.latexAllergy) {
    warnings.push({
      code: 'latex',
      text: 'Latex allergy: check that band, gloves and dressing are latex-free.',
    })
  }
  if (preparation.faintedBefore) {
    warnings.push({ code: 'faintedBefore', text: 'Has fainted before: draw lying down.' })
  }
  const remark = gaugeRemark(needleSet, {
    vein: undefined,
    age_y: age_years(patient.birthDate, today) ?? 0,
  })
  if (remark) warnings.push({ code: 'gauge', text: remark, source: 'common practice, no source' })
  return warnings
}

function bandWarnings(
  { policy }: PlanInput,
  tubes: readonly PlannedTube[],
  { predicted_s, offDuring }: Plan['band'],
): PlanNotice[] {
  const limit_s = limit(policy, 'bandLimit_s')
  const due = tubes.findIndex((tube) => tube.id === offDuring)
  if (predicted_s <= limit_s || due < 0) return []
  return [
    {
      code: 'bandTooLong',
      text: `The tubes need about ${predicted_s} s from band on; the band may stay ${limit_s} s. Take it off by tube ${due + 1} (${tubes[due]?.name ?? ''}).`,
      source: policy.limits.bandLimit_s.source,
    },
  ]
}
