import { findTest } from '../catalogue/catalogue.ts'
import { lineVolume_mL } from '../flow/lineVolume.ts'
import type { Chosen } from './chosen.ts'
import { largestDeadVolume_mL, leastFill_mL } from './citrate.ts'
import type { PlannedTube, PlanNotice } from './plan.ts'
import type { PlanInput } from './planInput.ts'
import type { Haematocrit } from './planWarnings.ts'
import { atLeast_mL, mL, named, notice } from './planWords.ts'

/** What was assumed, and what follows from the plan without anybody having to act on it. */
export function planDetails(
  input: PlanInput,
  chosen: Chosen,
  tubes: readonly PlannedTube[],
  haematocrit: Haematocrit,
): PlanNotice[] {
  return [
    ...searchDetails(input, chosen),
    ...partFillDetails(input, tubes),
    ...timingDetails(input),
    ...citrateDetails(input, chosen),
    ...lineDetails(input, tubes),
    ...haematocritDetails(input, haematocrit),
  ]
}

function searchDetails({ texts: { plan } }: PlanInput, chosen: Chosen): PlanNotice[] {
  const { notices } = plan
  const tests = named(
    chosen.reduced.map((test) => test.name),
    plan,
  )
  return [
    ...(!chosen.proven && chosen.tubes.length > 0 ? [notice('notProven', notices.notProven)] : []),
    ...(chosen.level === 'least' ? [notice('leastVolumes', notices.leastVolumes)] : []),
    ...(chosen.reduced.length > 0
      ? [notice('reducedVolume', notices.reducedVolume, { tests })]
      : []),
  ]
}

function partFillDetails(
  { texts: { plan } }: PlanInput,
  tubes: readonly PlannedTube[],
): PlanNotice[] {
  return tubes.flatMap(({ name, planned_mL }) =>
    planned_mL === undefined
      ? []
      : [notice('partFill', plan.notices.partFill, { tube: name, fill_mL: mL(planned_mL) })],
  )
}

/** When the tests want to be drawn: after a dose, before the next, at what hour. */
function timingDetails({ order, catalogue, texts: { plan } }: PlanInput): PlanNotice[] {
  const tests = order.tests.flatMap((code) => findTest(catalogue, code) ?? [])
  return tests.flatMap(({ name, timing }) =>
    timing === undefined
      ? []
      : [notice('timing', plan.notices.timing.when, { test: name, timing })],
  )
}

function citrateDetails({ texts: { plan } }: PlanInput, chosen: Chosen): PlanNotice[] {
  const first = chosen.tubes.find(({ usable }) => usable.tube.additive === 'citrate')
  if (!first) return []
  const { tube } = first.usable
  return [
    notice(
      'citrateFill',
      plan.notices.citrateFill,
      { least_mL: atLeast_mL(leastFill_mL(tube)), air_mL: largestDeadVolume_mL(tube) },
      'CLSI H21 6th ed. 2024, as quoted by a hemostasis teaching site: at least 90 % of the draw volume',
    ),
  ]
}

function lineDetails(
  { needleSet, texts: { plan } }: PlanInput,
  [first]: readonly PlannedTube[],
): PlanNotice[] {
  if (needleSet.syringe_mL !== undefined) return []
  const line_mL = lineVolume_mL(needleSet)
  if (first?.role !== 'specimen' || first.fillsBy === 'mark' || line_mL < 0.05) return []
  return [
    notice(
      'lineAir',
      plan.notices.lineAir.enough,
      { air_mL: mL(line_mL) },
      'Calculated from the bore and length of the tubing',
    ),
  ]
}

function haematocritDetails(
  { texts: { plan } }: PlanInput,
  { pct, given, source }: Haematocrit,
): PlanNotice[] {
  if (given) return []
  const { haematocritAssumed } = plan.notices
  return [notice('haematocritAssumed', haematocritAssumed, { haematocrit_pct: pct }, source)]
}
