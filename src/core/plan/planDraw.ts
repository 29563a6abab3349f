import { fillText } from '../basics/fillText.ts'
import { defined } from '../basics/defined.ts'
import { age_days, age_years } from '../bloodLimit/age.ts'
import { findTest, type TestRow } from '../catalogue/catalogue.ts'
import { norm } from '../catalogue/norms.ts'
import type { SkinPlace } from '../order/collecting.ts'
import { limit } from '../policy/policy.ts'
import { skinPlaceFor } from './skinPlaceFor.ts'
import { arrangeRack, type Rack, type RackStart } from './arrangeRack.ts'
import { bandForecast } from './bandForecast.ts'
import { bloodBudget, bloodVolume, passedRules } from './bloodBudget.ts'
import { ADULT_FROM_y, chooseForAge, chooseForDrops } from './chooseForAge.ts'
import { mayBeDiscard } from './discardTube.ts'
import { inputProblems } from './inputProblems.ts'
import { plannedFill_mL, type Plan, type PlannedTube, type PlanNotice } from './plan.ts'
import type { PlanInput } from './planInput.ts'
import { isInputFault } from './planTexts.ts'
import { notice } from './planWords.ts'
import { planDetails } from './planDetails.ts'
import { planWarnings } from './planWarnings.ts'
import { assumedHaematocrit } from './specimenYield.ts'
import { drawsBySyringe, syringeStays_mL } from './syringeNeed.ts'
import { isForSyringe, isForVein } from './tubesForAge.ts'
import { usableStock, type UsableTube } from './usableStock.ts'
import { whyUncovered } from './whyUncovered.ts'

/** What was there before: nothing for a first plan. */
export interface PlanStart extends RackStart {
  /** Tubes already filled, kept at the head of the rack. */
  readonly drawn: readonly PlannedTube[]
  /** Blood those took, mL. */
  readonly drawn_mL: number
}

const FRESH: PlanStart = { nextNumber: 1, linePrimed: false, drawn: [], drawn_mL: 0 }

/**
 * The rack for an order: fewest tubes, then least blood, then fewest kinds, in order of draw.
 * Pure and without a clock: the same input always gives the same plan. Never throws on bad data: what is wrong stands
 * in `problems`, and every test without a tube stands in `uncovered` with the reason.
 */
export function planDraw(input: PlanInput): Plan {
  const plan = planFrom(input, FRESH)
  return defined({ ...plan, advises: advisedPlace(input, plan) })
}

/**
 * Where an infant's blood could be taken drop by drop as well, or that of a child whose limit only drops would keep,
 * with every test in a tube and nothing to stop at.
 */
function advisedPlace(input: PlanInput, { problems, warnings }: Plan): SkinPlace | undefined {
  const codes = [...problems, ...warnings].map(({ code }) => code)
  if (input.collecting || codes.some(isInputFault)) return undefined
  const { patient, today } = input
  const place = skinPlaceFor(patient.birthDate, today, input.policy)
  const age_y = ageOf_y(input)
  const spares =
    age_y < ADULT_FROM_y && codes.some((code) => code === 'overLimit' || code === 'muchBlood')
  if (place === 'capillaryFinger' && !spares) return undefined
  const drops = planFrom({ ...input, collecting: place }, FRESH)
  const stops = drops.problems.filter(({ code }) => code !== 'weightMissing')
  const whole = stops.length === 0 && drops.tubes.length > 0
  return whole && drops.blood.draw_mL <= limit(input.policy, 'dropsMost_mL') ? place : undefined
}

/** The same from a rack that already holds drawn tubes. */
export function planFrom(input: PlanInput, start: PlanStart): Plan {
  const problems = inputProblems(input)
  if (problems.some(({ code }) => isInputFault(code))) {
    return unplanned(input, start, problems)
  }
  const { catalogue, needleSet, preparation, texts } = input
  const { notices, whyUncovered: reasons } = texts.plan
  const haematocrit = haematocritOf(input)
  const onHand = usableStock(catalogue, input.stock, input.today).usable
  const bySyringe = drawsBySyringe(input)
  const isFit = bySyringe ? isForSyringe : isForVein
  const usable = input.collecting ? onHand : onHand.filter(({ tube }) => isFit(tube))
  const { tests, unknown, repeated } = ordered(input)
  const budget = bloodBudget(input)
  const stays_mL = bySyringe ? syringeStays_mL(needleSet, input.policy) : 0
  const reserve_mL = discardReserve_mL(tests, usable, input, start) + stays_mL
  const limits_mL = budget.limits_mL.map((most) => Math.max(0, most - start.drawn_mL - reserve_mL))
  const conditions = {
    norms: catalogue.norms,
    haematocrit_pct: haematocrit.pct,
    preferences: catalogue.preferences ?? [],
    priority: input.order.priority,
  }
  const chosen = input.collecting
    ? chooseForDrops(tests, usable, conditions, limits_mL)
    : chooseForAge(tests, usable, conditions, limits_mL, ageOf_y(input))
  const from = { ...start, drops: input.collecting !== undefined }
  const flow = {
    ...conditions,
    needleSet,
    corrections: input.fillCorrections,
    temperature_C: input.bodyTemperature_C ?? norm(catalogue.norms, 'bodyTemperature_C'),
  }
  const rack = spareAir(
    arrangeRack(chosen.tubes, usable, flow, preparation, from, texts),
    () =>
      arrangeRack(chosen.tubes, usable, flow, preparation, { ...from, linePrimed: true }, texts),
    budget.limits_mL[0] === undefined ? undefined : budget.limits_mL[0] - start.drawn_mL,
  )
  const draw_mL = start.drawn_mL + bloodOf_mL(rack.tubes) + (rack.tubes.length > 0 ? stays_mL : 0)
  const passed = passedRules(budget, draw_mL, texts.plan)
  const band = input.collecting
    ? { predicted_s: 0, offDuring: undefined }
    : bandForecast(rack.tubes, catalogue.norms)
  const uncovered = [
    ...unknown.map((test) => ({ test, reason: fillText(reasons.unknownTest) })),
    ...chosen.uncovered.map((test) => ({
      test: test.code,
      reason: whyUncovered(test, input, usable, haematocrit.pct),
    })),
  ]
  const nameOf = (code: string): string => findTest(catalogue, code)?.name ?? code
  return {
    tubes: [...start.drawn, ...rack.tubes],
    problems: [
      ...problems,
      ...uncovered.map(({ test, reason }) =>
        notice('uncovered', notices.uncovered, { test: nameOf(test), reason }),
      ),
      ...(rack.discardMissing ? [notice('noDiscardTube', notices.noDiscardTube[rack.air])] : []),
      ...passed.stop,
    ],
    warnings: [
      ...repeated.map((test) =>
        notice('repeatedTest', notices.repeatedTest, { test: nameOf(test) }),
      ),
      ...passed.warn,
      ...planWarnings(input, chosen, rack.tubes, band, haematocrit),
    ],
    details: planDetails(input, chosen, rack.tubes, haematocrit),
    uncovered,
    blood: bloodVolume(budget, draw_mL, texts.plan),
    band,
  }
}

const ageOf_y = ({ patient, today }: PlanInput): number => age_years(patient.birthDate, today) ?? 0

/** A discard tube that only spares another tube the air is not worth passing a limit: then somebody decides. */
function spareAir(rack: Rack, without: () => Rack, most_mL: number | undefined): Rack {
  const passes = most_mL !== undefined && bloodOf_mL(rack.tubes) > most_mL + 1e-9
  const only = rack.tubes[0]?.role === 'discard' && rack.air === 'other'
  return passes && only ? { ...without(), air: 'other', discardMissing: true } : rack
}

const bloodOf_mL = (tubes: readonly PlannedTube[]): number =>
  tubes.reduce((sum, tube) => sum + plannedFill_mL(tube), 0)

function haematocritOf({ patient, today, catalogue }: PlanInput) {
  const given = patient.haematocrit_pct
  if (given !== undefined) return { pct: given, given: true, source: 'given' }
  const days = age_days(patient.birthDate, today) ?? 0
  return { ...assumedHaematocrit(catalogue.norms, days, patient.sex), given: false }
}

function ordered({ order, catalogue }: PlanInput) {
  const codes = [...new Set(order.tests)]
  const tests = codes.flatMap((code) => findTest(catalogue, code) ?? [])
  const known = new Set(tests.map((test) => test.code))
  return {
    tests,
    unknown: codes.filter((code) => !known.has(code)),
    repeated: codes.filter((code) => order.tests.filter((c) => c === code).length > 1),
  }
}

/** Blood kept back for a discard tube when one may be needed. */
function discardReserve_mL(
  tests: readonly TestRow[],
  usable: readonly UsableTube[],
  { needleSet, collecting }: PlanInput,
  start: PlanStart,
): number {
  const wants = (prefix: string): boolean =>
    tests.some((test) => test.accepts.some((need) => need.additive.startsWith(prefix)))
  if (
    collecting ||
    needleSet.kind !== 'winged' ||
    needleSet.syringe_mL !== undefined ||
    start.linePrimed ||
    !wants('citrate') ||
    wants('culture')
  )
    return 0
  const sizes = usable
    .filter(({ tube }) => mayBeDiscard(tube.additive))
    .map(({ tube }) => tube.nominal_mL)
  return sizes.length === 0 ? 0 : Math.min(...sizes)
}

/** A plan that names every test as uncovered because the input itself cannot be used. */
function unplanned(input: PlanInput, start: PlanStart, problems: readonly PlanNotice[]): Plan {
  const texts = input.texts.plan
  const uncovered = [...new Set(input.order.tests)].map((test) => ({
    test,
    reason: fillText(texts.whyUncovered.notPlanned),
  }))
  return {
    tubes: start.drawn,
    problems,
    warnings: [],
    uncovered,
    blood: {
      draw_mL: start.drawn_mL,
      earlier_mL: input.preparation.earlierDraws_mL ?? 0,
      source: texts.blood.notWorkedOut,
    },
    band: { predicted_s: 0, offDuring: undefined },
  }
}
