import { describe, expect, it } from 'vitest'
import type { Plan } from '../../../src/core/plan/plan.ts'
import { coverageAfter, type DrawnTube } from '../../../src/core/plan/coverageAfter.ts'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import { replan } from '../../../src/core/plan/replan.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { planInput, WINGED } from '../../support/planning.ts'

const INPUT = planInput(['pt', 'bmp', 'tsh', 'cbc', 'glucose'])
const PLAN = planDraw(INPUT)
// t1 citrate, t2 serum, t3 EDTA, t4 fluoride.
const [CITRATE, SERUM, EDTA, FLUORIDE] = PLAN.tubes.map(({ id }) => id) as [
  string,
  string,
  string,
  string,
]
const covers = (plan: Plan, drawn: readonly DrawnTube[]) => coverageAfter(plan, drawn, texts.plan)
const full = (id: string) => ({ id, fill: 'full' as const })
const short = (id: string, estimate_mL?: number) => ({
  id,
  fill: 'short' as const,
  ...(estimate_mL === undefined ? {} : { estimate_mL }),
})

describe('what is still covered when flow stops', () => {
  it('the tests of full tubes', () => {
    const { covered, lost } = covers(PLAN, [full(CITRATE), full(SERUM)])
    expect([...covered].sort()).toEqual(['bmp', 'pt', 'tsh'])
    expect(lost.map(({ test }) => test)).toEqual(['cbc', 'glucose'])
    expect(lost[0]?.reason).toContain('was not drawn')
  })

  it('nothing of a citrate tube below 90 % (CLSI H21 6th ed. 2024, as quoted)', () => {
    const least = PLAN.tubes[0]!.least_mL
    expect(covers(PLAN, [short(CITRATE, least - 0.01)]).covered).toEqual([])
    expect(covers(PLAN, [short(CITRATE, least)]).covered).toEqual(['pt'])
  })

  it('of a short serum tube the tests that fit, smallest need first', () => {
    const plan = planDraw(planInput(['bmp', 'cmp', 'rf']))
    const { id, needs_mL, dead_mL } = plan.tubes[0]!
    // 0.46, 0.69 and 0.23 mL of blood: 0.7 mL beside what no test gets holds the two smaller ones.
    expect([...needs_mL!].sort().map((need) => +need.toFixed(2))).toEqual([0.23, 0.46, 0.69])
    const { covered, lost } = covers(plan, [short(id, dead_mL! + 0.7)])
    expect(covered).toEqual(['rf', 'bmp'])
    expect(lost.map(({ test }) => test)).toEqual(['cmp'])
  })

  it('nothing of a short tube that nobody estimated, nor of an empty one', () => {
    const { covered, lost } = covers(PLAN, [short(SERUM), { id: EDTA, fill: 'empty' }])
    expect(covered).toEqual([])
    expect(lost.find(({ test }) => test === 'cbc')?.reason).toContain('stayed empty')
    expect(lost.find(({ test }) => test === 'tsh')?.reason).toContain('not known')
  })

  it('advises the waiting tube that serves most, and says what it passes over', () => {
    expect(covers(PLAN, []).tryNext).toMatchObject({ tubeId: SERUM })
    expect(covers(PLAN, []).tryNext?.reason).toContain('passes over')
    expect(covers(PLAN, [full(CITRATE)]).tryNext?.reason).not.toContain('passes over')
    const all = PLAN.tubes.map(({ id }) => full(id))
    expect(covers(PLAN, all).tryNext).toBeUndefined()
  })
})

describe('the plan for a second puncture', () => {
  const drawn = [full(CITRATE), short(SERUM, 0.1), { id: EDTA, fill: 'empty' as const }]
  const next = replan(INPUT, PLAN, drawn, { newPuncture: true })

  it('keeps the drawn tubes under their ids, with what they really serve', () => {
    expect(next.tubes.slice(0, 3).map(({ id, tests }) => [id, tests])).toEqual([
      [CITRATE, ['pt']],
      [SERUM, []],
      [EDTA, []],
    ])
  })

  it('collects what is missing in tubes with new ids', () => {
    const fresh = next.tubes.slice(3)
    expect(fresh.flatMap(({ tests }) => tests).sort()).toEqual(['bmp', 'cbc', 'glucose', 'tsh'])
    expect(fresh.map(({ id }) => id)).toEqual(['t5', 't6', 't7'])
    expect(next.uncovered).toEqual([])
    expect(next.problems).toEqual([])
  })

  it('never gives an id again, also over several re-plans', () => {
    const again = replan(INPUT, next, [...drawn, full('t5')], {
      newPuncture: true,
      idsGiven: [FLUORIDE, 't9'],
    })
    const ids = again.tubes.map(({ id }) => id)
    expect(new Set(ids).size).toBe(ids.length)
    expect(ids).toEqual([CITRATE, SERUM, EDTA, 't5', 't10', 't11'])
  })

  it('counts the blood already taken: full tubes, estimates, nothing for empty ones', () => {
    const fresh = next.tubes.slice(3).reduce((sum, tube) => sum + tube.nominal_mL, 0)
    expect(next.blood.draw_mL).toBeCloseTo(PLAN.tubes[0]!.nominal_mL + 0.1 + fresh, 6)
  })

  it('takes used tubes off the stock', () => {
    const stock = INPUT.stock.map((lot) => ({
      ...lot,
      count: lot.tubeCode === 'edta2' ? 1 : lot.count,
    }))
    const input = { ...INPUT, stock }
    const plan = planDraw(input)
    const edta = plan.tubes.find(({ additive }) => additive === 'edtaK2')!
    expect(edta.tubeCode).toBe('edta2')
    const second = replan(input, plan, [{ id: edta.id, fill: 'empty' }], { newPuncture: true })
    const used = second.tubes.filter(({ tubeCode }) => tubeCode === 'edta2')
    expect(used).toHaveLength(1)
  })

  it('needs a discard tube again with a new winged set, but not through the same needle', () => {
    const input = { ...INPUT, needleSet: WINGED }
    const plan = planDraw(input)
    const first = plan.tubes.slice(0, 1).map(({ id }) => full(id))
    expect(plan.tubes[0]?.role).toBe('discard')
    const roles = (newPuncture: boolean) =>
      replan(input, plan, first, { newPuncture })
        .tubes.slice(1)
        .map(({ role }) => role)
    expect(roles(true)[0]).toBe('discard')
    expect(roles(false)).not.toContain('discard')
  })

  it('warns when a tube would follow a later one through the same needle', () => {
    const same = replan(INPUT, PLAN, [full(EDTA)], { newPuncture: false })
    expect(same.warnings.map(({ code }) => code)).toContain('orderBroken')
    const other = replan(INPUT, PLAN, [full(EDTA)], { newPuncture: true })
    expect(other.warnings.map(({ code }) => code)).not.toContain('orderBroken')
  })

  it('has nothing to add when all is covered', () => {
    const all = PLAN.tubes.map(({ id }) => full(id))
    const done = replan(INPUT, PLAN, all, { newPuncture: true })
    expect(done.tubes.map(({ id }) => id)).toEqual(PLAN.tubes.map(({ id }) => id))
    expect([...done.problems, ...done.uncovered]).toEqual([])
  })
})
