import { age_days, age_years } from '../bloodLimit/age.ts'
import { catalogueFaults, stockFaults } from '../catalogue/catalogueFaults.ts'
import { isDay } from '../time/format.ts'
import type { PlanNotice } from './plan.ts'
import type { PlanInput } from './planInput.ts'

const within = (value: number, low: number, high: number): boolean =>
  Number.isFinite(value) && value >= low && value <= high

/** Everything in the input that makes a plan impossible or unsafe, in words a person can act on. */
export function inputProblems(input: PlanInput): PlanNotice[] {
  const { order, patient, preparation, needleSet, bloodLimits, today } = input
  const problems: PlanNotice[] = []
  const add = (code: string, text: string, source?: string): void => {
    problems.push({ code, text, ...(source === undefined ? {} : { source }) })
  }
  if (order.tests.length === 0) add('noTests', 'The order names no test.')
  if (!isDay(today)) add('badToday', `"${today}" is not a date.`)
  else if (age_days(patient.birthDate, today) === undefined) {
    add('badBirthDate', `The birth date "${patient.birthDate}" is not a date in the past.`)
  } else if ((age_years(patient.birthDate, today) ?? 0) > 130) {
    add('badBirthDate', `The birth date "${patient.birthDate}" is more than 130 years ago.`)
  }
  const { weight_kg, haematocrit_pct } = patient
  const years = age_years(patient.birthDate, today)
  if (weight_kg === undefined && years !== undefined && years < bloodLimits.weightNeededBelow_y) {
    add(
      'weightMissing',
      `The weight is needed under ${bloodLimits.weightNeededBelow_y} years: without it no blood volume limit can be worked out.`,
      "Howie 2011, Bull WHO 89:46: limits for children are parts of the body's blood volume",
    )
  }
  if (weight_kg !== undefined && !within(weight_kg, 0.3, 400)) {
    add('badWeight', `A weight of ${weight_kg} kg is not possible. Check it.`)
  }
  if (haematocrit_pct !== undefined && !within(haematocrit_pct, 5, 85)) {
    add('badHaematocrit', `A hematocrit of ${haematocrit_pct} % is not possible. Check it.`)
  }
  const earlier = preparation.earlierDraws_mL
  if (earlier !== undefined && !within(earlier, 0, 20_000)) {
    add('badEarlierDraws', `${earlier} mL of earlier draws is not possible. Check it.`)
  }
  const temperature = input.bodyTemperature_C
  if (temperature !== undefined && !within(temperature, 20, 45)) {
    add('badTemperature', `A body temperature of ${temperature} °C is not possible. Check it.`)
  }
  const { left, right } = preparation.restrictions
  if (left && right) {
    add('bothArms', 'Both arms are restricted. Ask the provider where blood may be taken.')
  }
  problems.push(...needleProblems(input))
  for (const fault of catalogueFaults(input.catalogue)) {
    add(
      'catalogueFault',
      `Catalog ${fault.table}, row ${fault.row}, ${fault.column}: ${fault.text}`,
    )
  }
  for (const fault of stockFaults(input.stock, input.catalogue)) {
    add('stockFault', `Stock, row ${fault.row}, ${fault.column}: ${fault.text}`)
  }
  if (!input.catalogue.norms.bores.some((row) => row.gauge === needleSet.gauge)) {
    add('badNeedle', `There is no bore on file for a ${needleSet.gauge} gauge needle.`)
  }
  return problems
}

function needleProblems({ needleSet }: PlanInput): PlanNotice[] {
  const wrong: string[] = []
  if (!within(needleSet.needle_mm, 5, 60)) wrong.push(`needle length ${needleSet.needle_mm} mm`)
  if (needleSet.kind === 'winged') {
    if (!within(needleSet.tubing_mm, 20, 1000))
      wrong.push(`tubing length ${needleSet.tubing_mm} mm`)
    if (!within(needleSet.tubingBore_mm, 0.3, 5))
      wrong.push(`tubing bore ${needleSet.tubingBore_mm} mm`)
  }
  return wrong.map((what) => ({
    code: 'badNeedle',
    text: `A ${what} is not possible. Read the packet again.`,
  }))
}
