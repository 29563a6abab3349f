import { describe, expect, it } from 'vitest'
import type { NeedleSet } from '../../../src/core/order/order.ts'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import { syringeFor, syringeNeed_mL } from '../../../src/core/plan/syringeNeed.ts'
import { planInput, POLICY, WINGED } from '../../support/planning.ts'

const STRAIGHT: NeedleSet = { kind: 'straight', gauge: 22, needle_mm: 25, tubing_mm: 0, tubingBore_mm: 0 } // prettier-ignore
const ORDER = ['pt', 'bmp', 'cbc'] as const
const plan = (needleSet: NeedleSet, tests: readonly string[] = ORDER) =>
  planDraw(planInput(tests, { needleSet }))
const codes = (notices: readonly { readonly code: string }[]) => notices.map(({ code }) => code)

describe('a plan by syringe', () => {
  // The same order of draw in the transfer: WHO guidelines on drawing blood 2010, Table 2.3, holds for syringe and
  // vacuum alike, from memory; a training page on carry-over names the needle of the transfer device, excerpt.
  it('keeps the order of draw and the tubes of a holder, without a discard tube', () => {
    const byHolder = plan(WINGED)
    const bySyringe = plan({ ...WINGED, syringe_mL: 20 })
    expect(byHolder.tubes[0]?.role).toBe('discard')
    expect(bySyringe.tubes.map(({ additive }) => additive)).toEqual(
      byHolder.tubes.slice(1).map(({ additive }) => additive),
    )
  })

  it('gives no tube a time of filling', () => {
    const { tubes } = plan({ ...WINGED, syringe_mL: 20 })
    expect(tubes.every(({ fill }) => fill.expected_s === 0 && fill.trusted === false)).toBe(true)
  })

  it('counts what stays behind as blood drawn: in the tip, and in the tubing of a winged set', () => {
    const { tubes, blood } = plan({ ...STRAIGHT, syringe_mL: 20 })
    const inTubes_mL = tubes.reduce((sum, tube) => sum + (tube.planned_mL ?? tube.nominal_mL), 0)
    expect(blood.draw_mL).toBeCloseTo(inTubes_mL + 0.3, 5)
    // 305 mm of 1.6 mm bore: 0.613 mL, pi / 4 x 1.6 x 1.6 x 305 / 1000.
    const winged = plan({ ...WINGED, syringe_mL: 20 })
    expect(winged.blood.draw_mL).toBeCloseTo(inTubes_mL + 0.3 + 0.613, 2)
  })

  // At least the planned volume and the dead volume; 20 mL at most: army training course MD0533, excerpt.
  it('warns of a syringe that does not hold it, and names the one that does, or none', () => {
    const small = plan({ ...STRAIGHT, syringe_mL: 3 })
    const need_mL = syringeNeed_mL(small.tubes, { ...STRAIGHT, syringe_mL: 3 }, POLICY)
    const fit = syringeFor(need_mL)
    expect(codes(small.warnings)).toContain('syringe')
    expect(small.warnings.find(({ code }) => code === 'syringe')?.text).toContain(`take ${fit} mL`)
    expect(codes(plan({ ...STRAIGHT, syringe_mL: 20 }).warnings)).not.toContain('syringe')
    const culture = plan({ ...STRAIGHT, syringe_mL: 20 }, [
      'bloodCultureAerobic',
      'bloodCultureAnaerobic',
      'bmp',
      'cbc',
    ])
    expect(culture.warnings.find(({ code }) => code === 'syringe')?.text).toContain('largest')
  })

  it.each([[2.9, 3], [3, 3], [3.1, 5], [5.1, 10], [10.1, 20], [20.1, undefined]] as const)('%f mL need a syringe of %s mL', (need_mL, size) => {
    expect(syringeFor(need_mL)).toBe(size)
  }) // prettier-ignore

  it('plans no tube that is itself a syringe, and says so', () => {
    const { uncovered } = plan({ ...STRAIGHT, syringe_mL: 10 }, ['bloodGasVenous', 'cbc'])
    const known = planInput(['cbc']).catalogue.tests.some(({ code }) => code === 'bloodGasVenous')
    expect(known).toBe(true)
    expect(uncovered).toEqual([
      { test: 'bloodGasVenous', reason: expect.stringContaining('not out of another syringe') as string }, // prettier-ignore
    ])
  })
})
