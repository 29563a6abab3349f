import { age_years } from '../bloodLimit/age.ts'
import { catalogueFaults, stockFaults } from '../catalogue/catalogueFaults.ts'
import type { SkinPlace } from '../order/collecting.ts'
import { WALLS } from '../order/order.ts'
import { isDay } from '../time/format.ts'
import type { PlanNotice } from './plan.ts'
import { SKIN_PLACE_SOURCE, skinPlaceFor } from './skinPlaceFor.ts'
import type { PlanInput } from './planInput.ts'
import { notice } from './planWords.ts'

const within = (value: number, low: number, high: number): boolean =>
  Number.isFinite(value) && value >= low && value <= high

const OLDEST_y = 130

/** Everything in the input that makes a plan impossible or unsafe, in words a person can act on. */
export function inputProblems(input: PlanInput): PlanNotice[] {
  const { notices } = input.texts.plan
  return [
    ...(input.order.tests.length === 0 ? [notice('noTests', notices.noTests)] : []),
    ...dateProblems(input),
    ...bodyProblems(input),
    ...(input.collecting === 'capillaryHeel' ? [] : armProblems(input)),
    ...(input.collecting ? skinProblems(input, input.collecting) : needleProblems(input)),
    ...tableProblems(input),
  ]
}

function dateProblems({ patient, today, texts: { plan } }: PlanInput): PlanNotice[] {
  const { badToday, badBirthDate } = plan.notices
  const { birthDate } = patient
  if (!isDay(today)) return [notice('badToday', badToday, { today })]
  const years = age_years(birthDate, today)
  if (years === undefined) return [notice('badBirthDate', badBirthDate.notPast, { birthDate })]
  if (years <= OLDEST_y) return []
  return [notice('badBirthDate', badBirthDate.tooLongAgo, { birthDate, years: OLDEST_y })]
}

function bodyProblems(input: PlanInput): PlanNotice[] {
  const { patient, preparation, bloodLimits, today, bodyTemperature_C: temperature_C } = input
  const { notices } = input.texts.plan
  const { weight_kg, haematocrit_pct } = patient
  const earlier_mL = preparation.earlierDraws_mL
  const years = age_years(patient.birthDate, today)
  const problems: PlanNotice[] = []
  const { weightNeededBelow_y } = bloodLimits
  if (weight_kg === undefined && years !== undefined && years < weightNeededBelow_y) {
    problems.push(
      notice(
        'weightMissing',
        notices.weightMissing,
        { years: weightNeededBelow_y },
        "Howie 2011, Bull WHO 89:46: limits for children are parts of the body's blood volume",
      ),
    )
  }
  if (weight_kg !== undefined && !within(weight_kg, 0.3, 400)) {
    problems.push(notice('badWeight', notices.badWeight, { weight_kg }))
  }
  if (haematocrit_pct !== undefined && !within(haematocrit_pct, 5, 85)) {
    problems.push(notice('badHaematocrit', notices.badHaematocrit, { haematocrit_pct }))
  }
  if (earlier_mL !== undefined && !within(earlier_mL, 0, 20_000)) {
    problems.push(notice('badEarlierDraws', notices.badEarlierDraws, { earlier_mL }))
  }
  if (temperature_C !== undefined && !within(temperature_C, 20, 45)) {
    problems.push(notice('badTemperature', notices.badTemperature, { temperature_C }))
  }
  return problems
}

function armProblems({ preparation, texts }: PlanInput): PlanNotice[] {
  const { left, right } = preparation.restrictions
  return left && right ? [notice('bothArms', texts.plan.notices.bothArms)] : []
}

function skinProblems(input: PlanInput, collecting: SkinPlace): PlanNotice[] {
  const { patient, today, policy, texts } = input
  const { capillarySite } = texts.plan.notices
  if (collecting === skinPlaceFor(patient.birthDate, today, policy)) return []
  const asked = collecting === 'capillaryHeel' ? 'heel' : 'finger'
  return [notice('capillarySite', capillarySite[asked], {}, SKIN_PLACE_SOURCE)]
}

function needleProblems({ needleSet, catalogue, texts }: PlanInput): PlanNotice[] {
  const { badNeedle } = texts.plan.notices
  const { kind, needle_mm, tubing_mm, tubingBore_mm, gauge } = needleSet
  const winged = kind === 'winged'
  const { bores } = catalogue.norms
  const say = (what: keyof typeof badNeedle, value: number): PlanNotice =>
    notice('badNeedle', badNeedle[what], { value })
  return [
    ...(within(needle_mm, 5, 60) ? [] : [say('needle_mm', needle_mm)]),
    ...(winged && !within(tubing_mm, 20, 1000) ? [say('tubing_mm', tubing_mm)] : []),
    ...(winged && !within(tubingBore_mm, 0.3, 5) ? [say('tubingBore_mm', tubingBore_mm)] : []),
    ...(WALLS.every((wall) => bores.some((row) => row.gauge === gauge && row.wall === wall))
      ? []
      : [say('gauge', gauge)]),
  ]
}

function tableProblems({ catalogue, stock, texts }: PlanInput): PlanNotice[] {
  const { notices } = texts.plan
  return [
    ...catalogueFaults(catalogue, texts.catalogue).map(({ table, row, column, text: fault }) =>
      notice('catalogueFault', notices.catalogueFault, { table, row, column, fault }),
    ),
    ...stockFaults(stock ?? [], catalogue, texts.catalogue).map(({ row, column, text: fault }) =>
      notice('stockFault', notices.stockFault, { row, column, fault }),
    ),
  ]
}
