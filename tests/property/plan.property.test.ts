import fc from 'fast-check'
import { describe, it } from 'vitest'
import { findSalt } from '../../src/core/catalogue/additives.ts'
import { compareDraw } from '../../src/core/catalogue/orderOfDraw.ts'
import { findTest, findTube, type StockTube } from '../../src/core/catalogue/catalogue.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { planDraw } from '../../src/core/plan/planDraw.ts'
import type { PlanInput } from '../../src/core/plan/planInput.ts'
import { replan } from '../../src/core/plan/replan.ts'
import { bloodFor_uL, specimenYield } from '../../src/core/plan/specimenYield.ts'
import { ADULT, planInput, SITE, WINGED } from '../support/planning.ts'

const codes = SITE.catalogue.tests.map(({ code }) => code)
const tubeCodes = SITE.catalogue.tubes.map(({ code }) => code)

const lot = fc.record<StockTube>({
  tubeCode: fc.constantFrom(...tubeCodes),
  lot: fc.string({ minLength: 1, maxLength: 4 }),
  expires: fc.constantFrom('2026-01-01', '2026-11-25', '2029-01-01'),
  count: fc.integer({ min: 0, max: 3 }),
})

/**
 * Orders with unknown tests and repeats, thin and expired stock, adults and children, both kinds of needle.
 * Kept small, so that a failing case can be read; `input` turns it into what the planner takes.
 */
const cases = fc.record({
  tests: fc.array(fc.constantFrom(...codes, 'moonlight'), { minLength: 1, maxLength: 10 }),
  stock: fc.array(lot, { maxLength: 14 }),
  haematocrit_pct: fc.integer({ min: 20, max: 65 }),
  patient: fc.constantFrom(
    {},
    { birthDate: '2019-03-03', weight_kg: 21 },
    { birthDate: '2026-06-01', weight_kg: 6 },
  ),
  winged: fc.boolean(),
})
type Case = typeof cases extends fc.Arbitrary<infer T> ? T : never

function inputOf({ tests, stock, haematocrit_pct, patient, winged }: Case): PlanInput {
  return planInput(tests, {
    stock,
    patient: { ...ADULT, ...patient, haematocrit_pct },
    ...(winged ? { needleSet: WINGED } : {}),
  })
}

const named = (plan: Plan): Set<string> =>
  new Set([...plan.tubes.flatMap(({ tests }) => tests), ...plan.uncovered.map(({ test }) => test)])

const says = (notices: Plan['warnings'], code: string): string =>
  notices
    .filter((notice) => notice.code === code)
    .map(({ text }) => text)
    .join()

/** Specimen tubes: fewer are better. */
const cost = (plan: Plan): number => plan.tubes.filter(({ role }) => role !== 'discard').length

describe('every plan', { timeout: 180_000 }, () => {
  it('covers each test once or names it', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const input = inputOf(one)
        const plan = planDraw(input)
        const served = plan.tubes.flatMap(({ tests }) => tests)
        const ordered = new Set(input.order.tests)
        return (
          served.length === new Set(served).size &&
          named(plan).size === ordered.size &&
          [...ordered].every((test) => named(plan).has(test)) &&
          plan.uncovered.every(({ reason }) => reason.length > 10) &&
          (plan.uncovered.length === 0 || plan.problems.length > 0)
        )
      }),
      { numRuns: 200 },
    )
  })

  it('overfills no tube, uses only sound lots, and only tubes the test accepts', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const input = inputOf(one)
        const plan = planDraw(input)
        const left = new Map((input.stock ?? []).map((own) => [own, own.count]))
        return plan.tubes.every((tube) => {
          const own = [...left].find(
            ([l, n]) =>
              n > 0 &&
              l.tubeCode === tube.tubeCode &&
              l.lot === tube.lot &&
              l.expires === tube.expires,
          )
          if (!own || own[0].expires < input.today) return false
          left.set(own[0], own[1] - 1)
          const load_uL = tube.tests.reduce((sum, code) => {
            const test = findTest(input.catalogue, code)!
            const need = test.accepts.find(({ additive }) => additive === tube.additive)
            if (!need) return Infinity
            const share = specimenYield(
              need.kind,
              input.patient.haematocrit_pct!,
              input.catalogue.norms,
            )
            return sum + bloodFor_uL(test.least_mL, share)
          }, 0)
          return load_uL <= Math.round(tube.nominal_mL * 1000)
        })
      }),
      { numRuns: 200 },
    )
  })

  it('is in order of draw, numbered t1, t2, ..., with at most one discard and that in front', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const input = inputOf(one)
        const { tubes } = planDraw(input)
        const specimens = tubes
          .filter(({ role }) => role !== 'discard')
          .map(({ additive }) => additive)
        return (
          tubes.every(({ id }, i) => id === `t${i + 1}`) &&
          tubes.slice(1).every(({ role }) => role !== 'discard') &&
          specimens.every((a, i) => i === 0 || compareDraw(specimens[i - 1]!, a) <= 0)
        )
      }),
      { numRuns: 200 },
    )
  })

  it('never gets worse with more tubes on hand', () => {
    fc.assert(
      fc.property(cases, fc.array(lot, { minLength: 1, maxLength: 5 }), (one, more) => {
        // A discard tube kept back changes the blood left for the rest: the straight needle has none.
        const input = inputOf({ ...one, winged: false })
        const before = planDraw(input)
        const after = planDraw({ ...input, stock: [...(input.stock ?? []), ...more] })
        if (after.uncovered.length > before.uncovered.length) return false
        const sameVolumes = ['leastVolumes', 'reducedVolume'].every(
          (code) => says(before.details ?? [], code) === says(after.details ?? [], code),
        )
        // More volume for a test or more tests covered may well take more tubes; otherwise none may.
        if (!sameVolumes || after.uncovered.length < before.uncovered.length) return true
        // The blood limit comes before the count of tubes: where what is said of it differs, less may be drawn for more.
        const ofLimit = ({ problems, warnings }: Plan): string =>
          says(problems, 'overLimit') + says(warnings, 'muchBlood')
        const spares =
          ofLimit(before) !== ofLimit(after) && after.blood.draw_mL < before.blood.draw_mL
        // Preferred tubes come before blood, and one salt of EDTA before fewer tubes: only sums of tubes compare.
        const salts = (plan: Plan): number =>
          new Set(plan.tubes.flatMap(({ additive }) => findSalt(additive) ?? [])).size
        return cost(after) <= cost(before) || salts(after) < salts(before) || spares
      }),
      { numRuns: 200 },
    )
  })

  it('keeps to a limit, or says so', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const input = inputOf(one)
        const { blood, problems, warnings } = planDraw(input)
        const passed = blood.limit_mL !== undefined && blood.draw_mL > blood.limit_mL + 1e-6
        const told = [...problems, ...warnings].map(({ code }) => code)
        return !passed || told.includes('overLimit') || told.includes('muchBlood')
      }),
      { numRuns: 150 },
    )
  })

  it('after any fills, a re-plan repeats no id and leaves no test unnamed', () => {
    const fills = fc.array(fc.constantFrom('full', 'short', 'empty', 'waiting'), {
      minLength: 12,
      maxLength: 12,
    })
    fc.assert(
      fc.property(cases, fills, fc.boolean(), (one, all, newPuncture) => {
        const input = inputOf(one)
        const plan = planDraw(input)
        const drawn = plan.tubes.flatMap(({ id }, i) => {
          const fill = all[i % all.length]!
          return fill === 'waiting'
            ? []
            : [{ id, fill, ...(fill === 'short' ? { estimate_mL: 0.8 } : {}) }]
        })
        const next = replan(input, plan, drawn, { newPuncture })
        const ids = next.tubes.map(({ id }) => id)
        const fresh = next.tubes.slice(drawn.length)
        return (
          ids.length === new Set(ids).size &&
          fresh.every(({ id }) => plan.tubes.every((tube) => tube.id !== id)) &&
          [...new Set(input.order.tests)].every((test) => named(next).has(test)) &&
          next.tubes.every((tube) => findTube(input.catalogue, tube.tubeCode))
        )
      }),
      { numRuns: 150 },
    )
  })
})
