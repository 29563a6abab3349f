import { describe, expect, it } from 'vitest'
import { findTube } from '../../../src/core/catalogue/catalogue.ts'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import type { Plan } from '../../../src/core/plan/plan.ts'
import demo from '../../../src/data/demo.json'
import type { PlanInput } from '../../../src/core/plan/planInput.ts'
import { ADULT, planInput, SITE, testRow, WINGED, withTests } from '../../support/planning.ts'

const codes = (notices: Plan['problems']): string[] => notices.map(({ code }) => code)
const tubes = (plan: Plan): string[] => plan.tubes.map((tube) => tube.tubeCode)
const additives = (plan: Plan): string[] => plan.tubes.map((tube) => tube.additive)
const CHILD = { ...ADULT, birthDate: '2020-06-01' }
/** Without micro-collection tubes, with which these orders keep to the limits. */
const NO_MICRO = { stock: SITE.stock.filter(({ tubeCode }) => !tubeCode.includes('Micro')) }

describe('a plan', () => {
  it('shares one tube where tests may share, and puts serum before EDTA', () => {
    const plan = planDraw(planInput(['cbc', 'bmp', 'tsh', 'folate']))
    expect(plan.problems).toEqual([])
    expect(plan.uncovered).toEqual([])
    expect(tubes(plan)).toEqual(['gel35', 'edta2'])
    expect(plan.tubes[0]).toMatchObject({
      id: 't1',
      role: 'specimen',
      // The basic panel keeps what its potassium asks for: cold lets it leak out of the cells.
      handling: ['light', 'roomOnly'],
      clot_min: 30,
    })
    expect([...(plan.tubes[0]?.tests ?? [])].sort()).toEqual(['bmp', 'folate', 'tsh'])
    expect(plan.blood.draw_mL).toBe(5.5)
  })

  it('plans the invented demonstration as two specimen tubes, serum then EDTA, without problems', () => {
    const plan = planDraw({ ...planInput([]), ...(demo as unknown as Partial<PlanInput>) })
    expect(plan.problems).toEqual([])
    expect(plan.tubes.map((tube) => tube.role)).toEqual(['specimen', 'specimen'])
    expect(additives(plan)).toEqual(['activatorGel', 'edtaK2'])
  })

  it('gives the same plan for the same order and does not change its input', () => {
    const input = planInput(['cbc', 'pt', 'lithium', 'glucose', 'bloodCultureAerobic'])
    const before = JSON.stringify(input)
    expect(planDraw(input)).toEqual(planDraw(input))
    expect(JSON.stringify(input)).toBe(before)
  })

  it('keeps every additive in order of draw, culture first', () => {
    const plan = planDraw(
      planInput([
        'glucose',
        'cbc',
        'ionizedCalcium',
        'lithium',
        'pt',
        'bloodCultureAnaerobic',
        'bloodCultureAerobic',
        'leadBlood',
      ]),
    )
    // WHO guidelines on drawing blood 2010, Table 2.3, as condensed in training pages; the trace element tube with its
    // own kind: a university laboratory page lists royal blue EDTA with EDTA, where it stood last before.
    expect(additives(plan)).toEqual([
      'cultureAerobic',
      'cultureAnaerobic',
      'citrate',
      'activatorGel',
      // Ionized calcium prefers balanced heparin.
      'heparinBalanced',
      'traceEdta',
      'edtaK2',
      'fluorideOxalate',
    ])
    expect(plan.tubes.map((tube) => tube.role).slice(0, 3)).toEqual([
      'culture',
      'culture',
      'specimen',
    ])
  })

  it('keeps iced tests and tests alone out of other tubes', () => {
    const plan = planDraw(planInput(['acth', 'bnp', 'bloodGroup', 'cbc']))
    expect(plan.tubes).toHaveLength(4)
    expect(plan.tubes.find((tube) => tube.tests.includes('acth'))?.handling).toEqual(['ice'])
  })

  it('takes the lot that expires first and names the lot', () => {
    const stock = [
      { tubeCode: 'edta2', lot: 'LATE', expires: '2029-01-01', count: 3 },
      { tubeCode: 'edta2', lot: 'SOON', expires: '2026-11-25', count: 1 },
      { tubeCode: 'edta2', lot: 'OLD', expires: '2026-11-24', count: 9 },
    ]
    const plan = planDraw(planInput(['cbc'], { stock }))
    expect(plan.tubes[0]).toMatchObject({ lot: 'SOON', expires: '2026-11-25' })
    expect(plan.warnings.find(({ code }) => code === 'expiredLot')?.text).toContain('OLD')
  })

  it('shortens the time limit of an aPTT for a patient on heparin (CLSI H21 6th ed. 2024, as quoted)', () => {
    const at = (anticoagulant: 'none' | 'heparin') =>
      planDraw(
        planInput(['aptt'], { preparation: { ...planInput([]).preparation, anticoagulant } }),
      ).tubes[0]?.timeLimit_min
    expect([at('none'), at('heparin')]).toEqual([240, 60])
  })

  it('uses more blood for the same serum at a higher haematocrit', () => {
    const used = (haematocrit_pct: number) =>
      planDraw(planInput(['cmp'], { patient: { ...ADULT, haematocrit_pct } })).tubes[0]
        ?.needs_mL?.[0]
    // 5 mL of blood for 2 mL of serum at 45 % (laboratory handbook pages): 0.3 mL takes 0.75 mL.
    expect(used(45)).toBeCloseTo(0.75, 2)
    expect(used(60)!).toBeGreaterThan(used(45)!)
  })

  it('assumes a haematocrit by age and sex and says so', () => {
    const { haematocrit_pct: _given, ...patient } = ADULT
    const plan = planDraw(planInput(['cmp'], { patient }))
    const said = plan.details?.find(({ code }) => code === 'haematocritAssumed')
    // Adult women, mean 41 %: Dallman in Rudolph, Pediatrics 16th ed. 1977, as reprinted.
    expect(said?.text).toContain('41 %')
    expect(said?.source).toContain('Dallman')
  })

  it('falls to the minimum of one test when no tube holds its preferred volume, and names it', () => {
    const big = testRow('big', { least_mL: 2, preferred_mL: 9 })
    const plan = planDraw(planInput(['big'], withTests([big])))
    expect(plan.tubes).toHaveLength(1)
    expect(plan.details?.find(({ code }) => code === 'reducedVolume')?.text).toContain('big')
  })
})

describe('the discard tube', () => {
  it('leads when a winged set would give the citrate tube its air; it is no clot activator', () => {
    const plan = planDraw(planInput(['pt', 'cbc'], { needleSet: WINGED }))
    expect(plan.tubes.map((tube) => tube.role)).toEqual(['discard', 'specimen', 'specimen'])
    // Another citrate tube or one without additive, never a clot activator: university laboratory collection page.
    expect(['citrate', 'plain']).toContain(plan.tubes[0]?.additive)
    expect(plan.tubes[0]).toMatchObject({ tests: [], least_mL: 0.7 })
    expect(plan.blood.draw_mL).toBe(plan.tubes.reduce((sum, tube) => sum + tube.nominal_mL, 0))
  })

  it.each([
    ['a straight needle', planInput(['pt'])],
    ['cultures before it', planInput(['pt', 'bloodCultureAerobic'], { needleSet: WINGED })],
    ['no citrate', planInput(['cbc'], { needleSet: WINGED })],
  ])('is not needed with %s', (_why, input) => {
    expect(planDraw(input).tubes.some((tube) => tube.role === 'discard')).toBe(false)
  })

  it('stops the draw when none is on hand', () => {
    const stock = SITE.stock
      .filter(({ tubeCode }) => tubeCode === 'citrate27')
      .map((lot) => ({ ...lot, count: 1 }))
    const plan = planDraw(planInput(['pt'], { needleSet: WINGED, stock }))
    expect(codes(plan.problems)).toEqual(['noDiscardTube'])
  })

  it('says how much air the first tube takes when there is none', () => {
    const plan = planDraw(planInput(['cbc'], { needleSet: WINGED }))
    expect(plan.details?.find(({ code }) => code === 'lineAir')?.text).toContain('0.6 mL')
  })
})

describe('blood limits', () => {
  it('a child without a weight is not drawn', () => {
    const { weight_kg: _weight, ...patient } = CHILD
    expect(codes(planDraw(planInput(['cbc'], { patient })).problems)).toEqual(['weightMissing'])
  })

  it('takes two small tubes instead of one large when only they keep to the limit', () => {
    const rows = [
      testRow('a', { preferred_mL: 0.5, least_mL: 0.5 }),
      testRow('b', { preferred_mL: 0.5, least_mL: 0.5 }),
    ]
    const small = { ...findTube(SITE.catalogue, 'gel35')!, code: 'gel2', nominal_mL: 2 }
    const catalogue = { ...SITE.catalogue, tests: rows, tubes: [...SITE.catalogue.tubes, small] }
    const stock = ['gel2', 'gel5'].map((tubeCode) => ({
      tubeCode,
      lot: 'X',
      expires: '2029-01-01',
      count: 5,
    }))
    const at = (weight_kg: number) =>
      planDraw(planInput(['a', 'b'], { catalogue, stock, patient: { ...CHILD, weight_kg } }))
    // 1 % of 65 mL/kg: 5.2 mL at 8 kg, 4.55 mL at 7 kg.
    expect(tubes(at(8))).toEqual(['gel5'])
    expect(tubes(at(7))).toEqual(['gel2', 'gel2'])
    expect(at(7).problems).toEqual([])
  })

  it('goes down to minimum volumes before it passes the limit, and says so', () => {
    const rows = [testRow('a', { preferred_mL: 2, least_mL: 0.5 })]
    const plan = planDraw(
      planInput(['a'], { ...withTests(rows), patient: { ...CHILD, weight_kg: 6 } }),
    )
    expect(tubes(plan)).toEqual(['gel35'])
    expect(codes(plan.details ?? [])).toContain('leastVolumes')
  })

  it('stops an order over 3 % and shows mL and per cent', () => {
    const plan = planDraw(
      planInput(['cbc', 'bloodGroup'], { ...NO_MICRO, patient: { ...CHILD, weight_kg: 1.5 } }),
    )
    expect(codes(plan.problems)).toContain('overLimit')
    expect(plan.problems.find(({ code }) => code === 'overLimit')?.source).toContain('Howie')
    expect(plan.blood).toMatchObject({ bodyVolume_mL: 97.5 })
    expect(plan.blood.limit_mL).toBe(0.98)
    expect(plan.blood.percentOfBody).toBeCloseTo((100 * plan.blood.draw_mL) / 97.5, 1)
  })

  it('warns above 1 % and below 3 %, and does not stop (Howie 2011: guidelines allow 1 to 5 %)', () => {
    const plan = planDraw(
      planInput(['cbc', 'bloodGroup'], { ...NO_MICRO, patient: { ...CHILD, weight_kg: 4 } }),
    )
    expect(plan.problems).toEqual([])
    expect(codes(plan.warnings)).toContain('muchBlood')
    expect(plan.blood).toMatchObject({ limit_mL: 2.6, bodyVolume_mL: 260 })
  })

  it('counts earlier draws against the period', () => {
    // 10 % of 30 kg at 65 mL/kg: 195 mL.
    const preparation = { ...planInput([]).preparation, earlierDraws_mL: 194.5 }
    const plan = planDraw(
      planInput(['cbc'], { ...NO_MICRO, preparation, patient: { ...CHILD, weight_kg: 30 } }),
    )
    expect(codes(plan.problems)).toEqual(['overLimit'])
    expect(plan.blood.earlier_mL).toBe(194.5)
  })

  it('an adult in care is not held to a research limit', () => {
    const preparation = { ...planInput([]).preparation, earlierDraws_mL: 546 }
    const plan = planDraw(planInput(['cbc', 'bmp'], { preparation }))
    expect([plan.problems, plan.warnings]).toEqual([[], []])
  })
})

describe('the band', () => {
  it('is told only when the first tube alone passes the minute', () => {
    const thin = { ...WINGED, gauge: 25 } as const
    const plan = planDraw(planInput(['bloodCultureAerobic', 'cmp', 'cbc'], { needleSet: thin }))
    expect(plan.band.predicted_s).toBeGreaterThan(60)
    expect(codes(plan.warnings)).toContain('bandTooLong')
  })

  it('comes off as blood enters the first tube, however many follow', () => {
    const many = ['pt', 'cmp', 'cbc', 'bloodGroup', 'glucose', 'hbsAg', 'leadBlood']
    const plan = planDraw(planInput(many))
    expect(plan.band.predicted_s).toBeLessThan(60)
    expect(plan.band.offDuring).toBe('t1')
    expect(codes(plan.warnings)).not.toContain('bandTooLong')
  })
})
