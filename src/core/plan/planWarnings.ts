import { shownNumber } from '../basics/shownNumber.ts'
import { findTube } from '../catalogue/catalogue.ts'
import { dayAndTimeOf, dayMonthYear } from '../time/format.ts'
import { age_years } from '../bloodLimit/age.ts'
import { findTest } from '../catalogue/catalogue.ts'
import { limit } from '../policy/policy.ts'
import type { Chosen } from './chosen.ts'
import { CITRATE_HAEMATOCRIT_pct, citrateFor_mL } from './citrate.ts'
import { gaugeRemark } from './gaugeAdvice.ts'
import { lineVolume_mL } from '../flow/lineVolume.ts'
import { plannedFill_mL, type Plan, type PlannedTube, type PlanNotice } from './plan.ts'
import type { PlanInput } from './planInput.ts'
import type { PlanTexts } from './planTexts.ts'
import { mL, named, notice } from './planWords.ts'
import { syringeFor, syringeNeed_mL } from './syringeNeed.ts'
import { usableStock } from './usableStock.ts'

export type Haematocrit = { readonly pct: number; readonly given: boolean; readonly source: string }

/** Everything worth an act or a thought before the needle is in that does not stop the draw. */
export function planWarnings(
  input: PlanInput,
  chosen: Chosen,
  tubes: readonly PlannedTube[],
  band: Plan['band'],
  haematocrit: Haematocrit,
): PlanNotice[] {
  return [
    ...stockWarnings(input),
    ...bringWarnings(input, chosen),
    ...citrateWarnings(chosen, haematocrit, input.texts.plan),
    ...lineWarnings(input, chosen, tubes),
    ...patientWarnings(input),
    ...doseWarnings(input),
    ...(input.collecting ? [] : bandWarnings(input, band)),
    ...syringeWarnings(input, tubes),
  ]
}

function stockWarnings({ catalogue, stock, today, texts }: PlanInput): PlanNotice[] {
  return usableStock(catalogue, stock, today).expired.map(({ lot, tubeCode, expires }) =>
    notice('expiredLot', texts.plan.notices.expiredLot, {
      lot,
      tube: findTube(catalogue, tubeCode)?.name ?? tubeCode,
      expires: dayMonthYear(expires),
    }),
  )
}

/** What has to stand ready when such a tube comes off. */
function bringWarnings(
  { collecting, needleSet, texts: { plan: texts } }: PlanInput,
  chosen: Chosen,
): PlanNotice[] {
  const tests = chosen.tubes.flatMap((tube) => tube.tests)
  const isReady = collecting ?? needleSet.syringe_mL
  const micro = !isReady && chosen.tubes.some(({ usable }) => usable.tube.kind === 'micro')
  const cold = (['ice', 'warm'] as const).flatMap((mark) => {
    const names = tests.filter(({ handling }) => handling.includes(mark)).map(({ name }) => name)
    return names.length === 0
      ? []
      : [notice('bring', texts.notices.bring[mark], { tests: named(names, texts) })]
  })
  return micro ? [...cold, notice('bring', texts.notices.bring.syringe)] : cold
}

function citrateWarnings(
  chosen: Chosen,
  { pct }: Haematocrit,
  { notices }: PlanTexts,
): PlanNotice[] {
  const first = chosen.tubes.find(({ usable }) => usable.tube.additive === 'citrate')
  if (!first || pct <= CITRATE_HAEMATOCRIT_pct) return []
  return [
    notice(
      'citrateHaematocrit',
      notices.citrateHaematocrit,
      {
        haematocrit_pct: pct,
        limit_pct: CITRATE_HAEMATOCRIT_pct,
        suited_mL: shownNumber(citrateFor_mL(first.usable.tube.nominal_mL, pct), 2),
      },
      'CLSI H21 6th ed. 2024, as adapted by a hemostasis teaching site',
    ),
  ]
}

/** A vacuum tube that leads the rack takes the tubing's air; here that leaves too little for its tests. */
function lineWarnings(
  input: PlanInput,
  chosen: Chosen,
  tubes: readonly PlannedTube[],
): PlanNotice[] {
  if (input.needleSet.syringe_mL !== undefined) return []
  const line_mL = lineVolume_mL(input.needleSet)
  const first = tubes[0]
  if (!first || first.role !== 'specimen' || first.fillsBy === 'mark' || line_mL < 0.05) return []
  const used_mL = chosen.tubes.find(
    ({ usable, tests }) => usable.tube.code === first.tubeCode && tests[0]?.code === first.tests[0],
  )?.used_mL
  if (used_mL === undefined || used_mL + line_mL <= plannedFill_mL(first)) return []
  return [
    notice(
      'lineAir',
      input.texts.plan.notices.lineAir.tight,
      { air_mL: mL(line_mL) },
      'Calculated from the bore and length of the tubing',
    ),
  ]
}

function patientWarnings(input: PlanInput): PlanNotice[] {
  const { patient, preparation, needleSet, today, vein } = input
  const texts = input.texts.plan
  const { notices } = texts
  const age_y = age_years(patient.birthDate, today) ?? 0
  const remark = input.collecting ? undefined : gaugeRemark(needleSet, { vein, age_y }, texts)
  const tests = input.order.tests.flatMap((code) => findTest(input.catalogue, code) ?? [])
  const noAlcohol = tests.filter(({ handling }) => handling.includes('noAlcohol'))
  const listed = (rows: typeof tests): string =>
    named(
      rows.map(({ name }) => name),
      texts,
    )
  return [
    ...fastingWarnings(input),
    ...(noAlcohol.length > 0
      ? [notice('noAlcohol', notices.noAlcohol, { tests: listed(noAlcohol) })]
      : []),
    ...(preparation.latexAllergy ? [notice('latex', notices.latex)] : []),
    ...(preparation.faintedBefore ? [notice('faintedBefore', notices.faintedBefore)] : []),
    ...(remark ? [notice('gauge', remark, {}, 'common practice, no source')] : []),
  ]
}

/** A drug level without its last dose says little; one that is drawn too soon after it says something untrue. */
function doseWarnings({ catalogue, order, preparation, texts }: PlanInput): PlanNotice[] {
  const { timing } = texts.plan.notices
  const asked = order.tests.flatMap((code) => {
    const test = findTest(catalogue, code)
    const dose = catalogue.doses?.find(({ tests }) => tests.includes(code))
    return test && dose ? [{ test, dose }] : []
  })
  const givenAt = (code: string): string | undefined =>
    preparation.lastDoses?.find(({ test }) => test === code)?.at
  const open = asked.filter(({ test }) => givenAt(test.code) === undefined)
  const names = open.map(({ test }) => test.name)
  return [
    ...(names.length > 0
      ? [notice('timing', timing.lastDose, { tests: named(names, texts.plan) })]
      : []),
    ...asked.flatMap(({ test, dose: { least_h, source } }) => {
      const given = givenAt(test.code)
      if (given === undefined || least_h === undefined) return []
      const at = dayAndTimeOf(given)
      return [notice('timing', timing.doseTime, { test: test.name, least_h, at }, source)]
    }),
  ]
}

/** It must hold the tubes' blood and what stays behind. */
function syringeWarnings(
  { needleSet, collecting, policy, texts }: PlanInput,
  tubes: readonly PlannedTube[],
): PlanNotice[] {
  const { syringe_mL } = needleSet
  if (collecting || syringe_mL === undefined) return []
  const need_mL = syringeNeed_mL(tubes, needleSet, policy)
  if (need_mL <= syringe_mL) return []
  const fit_mL = syringeFor(need_mL)
  const { small, none } = texts.plan.notices.syringe
  const values = { syringe_mL, need_mL: mL(need_mL), fit_mL: fit_mL ?? '' }
  return [notice('syringe', fit_mL === undefined ? none : small, values, SYRINGE_SOURCE)]
}

const SYRINGE_SOURCE =
  'army training course MD0533, excerpt: the size goes by the blood wanted, 20 mL at most, smaller for children and fragile veins'

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

/** Only where the first tube alone passes the limit: the band comes off as blood enters it, or soon after. */
function bandWarnings({ policy, texts }: PlanInput, { predicted_s }: Plan['band']): PlanNotice[] {
  const limit_s = limit(policy, 'bandLimit_s')
  if (predicted_s <= limit_s) return []
  return [
    notice(
      'bandTooLong',
      texts.plan.notices.bandTooLong,
      { predicted_s, limit_s },
      policy.limits.bandLimit_s.source,
    ),
  ]
}
