import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { TubeRow } from '../../../src/core/catalogue/catalogue.ts'
import { catalogueFaults } from '../../../src/core/catalogue/catalogueFaults.ts'
import { coverageAfter } from '../../../src/core/plan/coverageAfter.ts'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import type { Plan } from '../../../src/core/plan/plan.ts'
import type { PlanInput } from '../../../src/core/plan/planInput.ts'
import { replan } from '../../../src/core/plan/replan.ts'
import { bloodFor_uL, specimenYield } from '../../../src/core/plan/specimenYield.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { ADULT, planInput, SITE, testRow } from '../../support/planning.ts'

const TODAY = '2026-11-25'
const INFANT = { ...ADULT, birthDate: '2026-11-20', weight_kg: 3 }
const micro = (code: string, more: Partial<TubeRow> = {}): TubeRow => ({
  code,
  name: code,
  additive: 'activatorGel',
  nominal_mL: 0.5,
  inner_mL: 1.1,
  kind: 'micro',
  fillsBy: 'mark',
  dead_mL: 0.1,
  leastFill_pct: 50,
  partialFill: true,
  inversionsMin: 5,
  inversionsMax: 5,
  closure: 'gold',
  source: 'invented',
  ...more,
})

function input(
  needs_mL: readonly number[],
  tubes: readonly TubeRow[],
  more: Partial<PlanInput> & { readonly count?: number } = {},
): PlanInput {
  const { count = 10, ...rest } = more
  const tests = needs_mL.map((least_mL, i) =>
    testRow(`test${i}`, { least_mL, preferred_mL: least_mL }),
  )
  return planInput(
    tests.map(({ code }) => code),
    {
      patient: INFANT,
      catalogue: { ...SITE.catalogue, tests, tubes, preferences: [] },
      stock: tubes.map(({ code }, i) => ({
        tubeCode: code,
        lot: `L${i}`,
        expires: '2027-01-01',
        count,
      })),
      today: TODAY,
      ...rest,
    },
  )
}

const blood_uL = (specimen_mL: number): number =>
  bloodFor_uL(specimen_mL, specimenYield('serum', ADULT.haematocrit_pct!, SITE.catalogue.norms))
const fills = ({ tubes }: Plan) =>
  tubes.map(({ planned_mL, nominal_mL }) => planned_mL ?? nominal_mL)

describe('tubes filled in part', () => {
  it('an infant gives what the tests need to the next mark, not what the label says', () => {
    const plan = planDraw(input([0.06], [micro('m5')]))
    // 0.06 mL of serum at a hematocrit of 40 % and what stays under the gel, calculated by hand: about 0.24 mL.
    expect(blood_uL(0.06)).toBeLessThan(150)
    expect(fills(plan)).toEqual([0.25])
    expect(plan.details?.map(({ code }) => code)).toContain('partFill')
    expect(plan.blood.draw_mL).toBe(0.25)
  })

  // A syringe fills them, or drops do: a time would make whoever is slower than it a person with slow flow.
  it('none says in how long it fills: it draws nothing by itself', () => {
    const [tube] = planDraw(input([0.06], [micro('m5')])).tubes
    expect(tube?.fill).toMatchObject({ expected_s: 0, trusted: false })
  })

  it('a grown child gets them full, unless a limit would be passed only so', () => {
    const child = { ...ADULT, birthDate: '2021-11-20', weight_kg: 18 }
    const small = { ...child, weight_kg: 0.6 }
    expect(fills(planDraw(input([0.06], [micro('m5')], { patient: child })))).toEqual([0.5])
    // 1 % of 65 mL/kg (Howie 2011; volume by age in the limits) leaves 0.39 mL.
    expect(fills(planDraw(input([0.06], [micro('m5')], { patient: small })))).toEqual([0.25])
  })

  it('never one that does not allow it, and never below its least', () => {
    expect(fills(planDraw(input([0.06], [micro('m5', { partialFill: false })])))).toEqual([0.5])
    expect(fills(planDraw(input([0.01], [micro('m5', { leastFill_pct: 60 })])))).toEqual([0.3])
  })

  it('a tube of a fixed proportion may not be said to allow it', () => {
    const row = micro('c1', { additive: 'citrate', dead_mL: 0 })
    const faults = catalogueFaults({ tests: [], tubes: [row] }, texts.catalogue)
    expect(faults.map(({ column }) => column)).toEqual(['partialFill'])
  })

  it('complete means the planned fill: its tests are covered and its blood counts as planned', () => {
    const one = input([0.06], [micro('m5')])
    const plan = planDraw(one)
    const drawn = [{ id: 't1', fill: 'full' as const }]
    expect(coverageAfter(plan, drawn, texts.plan).lost).toEqual([])
    const again = replan(
      { ...one, order: { ...one.order, tests: ['test0', 'missing'] } },
      { ...plan, uncovered: [{ test: 'missing', reason: '' }] },
      drawn,
      { newPuncture: true },
    )
    expect(again.blood.draw_mL).toBe(0.25)
  })

  it('does not promise more tubes than there are', () => {
    const plan = planDraw(input([0.15, 0.15], [micro('m5')], { count: 1 }))
    expect(plan.tubes).toHaveLength(1)
    expect(plan.uncovered).toHaveLength(1)
  })

  // An oracle of its own: every way of putting the tests together, each group in the cheapest mark of any tube.
  it('takes fewest tubes and then least blood among all ways there are', () => {
    const tubes = [micro('m5'), micro('m8', { nominal_mL: 0.8 })]
    const marks_uL = [
      [250, 300, 400, 500],
      [400, 500, 600, 700, 800],
    ]
    const cheapest = (need_uL: number): number =>
      Math.min(...marks_uL.flat().filter((mark) => mark - 100 >= need_uL), Infinity)
    const best = (needs: readonly number[]): readonly [number, number] => {
      const ways = partitions(needs).map((groups): readonly [number, number] => [
        groups.length,
        groups.reduce((sum, group) => sum + cheapest(group.reduce((a, b) => a + b, 0)), 0),
      ])
      return ways
        .filter(([, blood]) => Number.isFinite(blood))
        .sort((a, b) => a[0] - b[0] || a[1] - b[1])[0]!
    }
    const needs = fc.array(fc.integer({ min: 1, max: 25 }), { minLength: 1, maxLength: 4 })
    fc.assert(
      fc.property(needs, (hundredths) => {
        const volumes = hundredths.map((v) => v / 100)
        const plan = planDraw(input(volumes, tubes))
        const blood = Math.round(fills(plan).reduce((sum, v) => sum + v, 0) * 1000)
        expect([plan.tubes.length, blood]).toEqual(best(volumes.map(blood_uL)))
      }),
      { numRuns: 60 },
    )
  })
})

function partitions(items: readonly number[]): readonly (readonly (readonly number[])[])[] {
  const [first, ...rest] = items
  if (first === undefined) return [[]]
  return partitions(rest).flatMap((groups) => [
    [[first], ...groups],
    ...groups.map((group, i) => groups.map((other, j) => (i === j ? [first, ...group] : other))),
  ])
}
