import { describe, expect, it } from 'vitest'
import { compareDraw } from '../../../src/core/catalogue/orderOfDraw.ts'
import { chooseTubes } from '../../../src/core/plan/chooseTubes.ts'
import { usableStock } from '../../../src/core/plan/usableStock.ts'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import type { Plan } from '../../../src/core/plan/plan.ts'
import type { PlanInput } from '../../../src/core/plan/planInput.ts'
import { ADULT, planInput, SITE, testRow, WINGED, withTests } from '../../support/planning.ts'

const codes = (notices: Plan['problems']): string[] => notices.map(({ code }) => code)

describe('input that cannot be planned', () => {
  it.each<[string, Partial<PlanInput>, string]>([
    [
      'an order without tests',
      { order: { orderNumber: '1', tests: [], priority: 'stat' } },
      'noTests',
    ],
    [
      'a birth date in the future',
      { patient: { ...ADULT, birthDate: '2030-01-01' } },
      'badBirthDate',
    ],
    ['a weight of -3 kg', { patient: { ...ADULT, weight_kg: -3 } }, 'badWeight'],
    ['a haematocrit of 400 %', { patient: { ...ADULT, haematocrit_pct: 400 } }, 'badHaematocrit'],
    [
      'a haematocrit that is no number',
      { patient: { ...ADULT, haematocrit_pct: NaN } },
      'badHaematocrit',
    ],
    ['a needle of 0 mm', { needleSet: { ...WINGED, needle_mm: 0 } }, 'badNeedle'],
    ['a body at 60 °C', { bodyTemperature_C: 60 }, 'badTemperature'],
    ['a negative volume', withTests([testRow('cbc', { least_mL: -1 })]), 'catalogueFault'],
    ['two rows with one code', withTests([testRow('cbc'), testRow('cbc')]), 'catalogueFault'],
    [
      'an unknown additive',
      withTests([testRow('cbc', { accepts: [{ kind: 'serum', additive: 'honey' as never }] })]),
      'catalogueFault',
    ],
    [
      'a lot of half a tube',
      { stock: [{ tubeCode: 'edta2', lot: '1', expires: '2029-01-01', count: 0.5 }] },
      'stockFault',
    ],
    [
      'a tube nobody knows',
      { stock: [{ tubeCode: 'x', lot: '1', expires: '2029-01-01', count: 1 }] },
      'stockFault',
    ],
  ])('%s', (_what, more, code) => {
    const plan = planDraw(planInput(['cbc'], more))
    expect(codes(plan.problems)).toContain(code)
    expect(plan.tubes).toEqual([])
    expect(plan.uncovered.map(({ test }) => test)).toEqual(more.order ? [] : ['cbc'])
  })

  it('earlier draws below 0', () => {
    const preparation = { ...planInput([]).preparation, earlierDraws_mL: -5 }
    expect(codes(planDraw(planInput(['cbc'], { preparation })).problems)).toContain(
      'badEarlierDraws',
    )
  })

  it('both arms restricted', () => {
    const restrictions = { left: 'fistula', right: 'nodeRemoval' } as const
    const preparation = { ...planInput([]).preparation, restrictions }
    expect(codes(planDraw(planInput(['cbc'], { preparation })).problems)).toEqual(['bothArms'])
  })
})

describe('what is left out is named with its reason', () => {
  const reasonFor = (more: Partial<PlanInput>, test = 'cbc') => {
    const plan = planDraw(planInput([test, 'sodium'], more))
    expect(plan.uncovered.map((entry) => entry.test)).toContain(test)
    expect(codes(plan.problems)).toContain('uncovered')
    return plan.uncovered.find((entry) => entry.test === test)?.reason
  }

  it('an unknown test', () => {
    expect(reasonFor({}, 'moonlight')).toContain('not in the catalog')
    expect(planDraw(planInput(['moonlight', 'sodium'])).tubes).toHaveLength(1)
  })

  it('everything expired', () => {
    expect(reasonFor({ today: '2040-01-01', patient: { ...ADULT } })).toContain('expired')
    expect(planDraw(planInput(['cbc'], { today: '2040-01-01' })).tubes).toEqual([])
  })

  it('none on hand', () => {
    const stock = SITE.stock.filter(({ tubeCode }) => !tubeCode.startsWith('edta'))
    expect(reasonFor({ stock })).toContain('No such tube is on hand')
  })

  it('no tube in the catalog', () => {
    const tubesLeft = SITE.catalogue.tubes.filter(({ additive }) => !additive.startsWith('edta'))
    const stock = SITE.stock.filter(({ tubeCode }) =>
      tubesLeft.some(({ code }) => code === tubeCode),
    )
    expect(reasonFor({ catalogue: { ...SITE.catalogue, tubes: tubesLeft }, stock })).toContain(
      'catalog has no',
    )
  })

  it('no tube large enough', () => {
    const tests = [testRow('cbc', { least_mL: 40, preferred_mL: 40 }), testRow('sodium')]
    expect(reasonFor(withTests(tests))).toContain('no such tube on hand is that large')
  })

  it('not enough tubes for the order: as many tests as possible are kept', () => {
    const tests = ['a', 'b', 'c'].map((code) => testRow(code, { sharing: 'alone' }))
    const stock = [{ tubeCode: 'gel5', lot: '1', expires: '2029-01-01', count: 2 }]
    const plan = planDraw(planInput(['a', 'b', 'c'], { ...withTests(tests), stock }))
    expect(plan.tubes).toHaveLength(2)
    expect(plan.uncovered).toHaveLength(1)
    expect(plan.uncovered[0]?.reason).toContain('not enough')
  })
})

describe('large orders', () => {
  const tests = Array.from({ length: 200 }, (_, i) =>
    testRow(`t${i}`, {
      preferred_mL: 0.1 + (i % 17) / 20,
      sharing: i % 5 === 0 ? 'alone' : 'open',
    }),
  )
  const stock = SITE.stock.map((lot) => ({ ...lot, count: 200 }))

  it('200 tests are all covered', () => {
    const order = tests.map(({ code }) => code)
    const plan = planDraw(planInput(order, { ...withTests(tests), stock }))
    expect(plan.uncovered).toEqual([])
    expect(plan.tubes.flatMap((tube) => tube.tests).sort()).toEqual([...order].sort())
  })

  it('every test of the starter catalog at once is covered, in order of draw', () => {
    const plan = planDraw(planInput(SITE.catalogue.tests.map(({ code }) => code)))
    // All but the newborn card, which is never blood of a vein.
    expect(plan.uncovered).toEqual([
      { test: 'newbornScreen', reason: expect.stringMatching(/from the heel/) as string },
    ])
    const order = plan.tubes.map(({ additive }) => additive)
    expect(order).toEqual([...order].sort(compareDraw))
  })

  it('a search cut short still covers the order and is marked as not proven', () => {
    const { usable } = usableStock(SITE.catalogue, stock, '2026-11-25')
    const conditions = { norms: SITE.catalogue.norms, haematocrit_pct: 40 }
    const chosen = chooseTubes(tests, usable, conditions, [], 100)
    expect(chosen.proven).toBe(false)
    expect(chosen.uncovered).toEqual([])
  })
})
