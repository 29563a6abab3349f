import { describe, expect, it } from 'vitest'
import {
  citrateFor_mL,
  largestDeadVolume_mL,
  leastFill_mL,
} from '../../../src/core/plan/citrate.ts'
import { findTube } from '../../../src/core/catalogue/catalogue.ts'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import { ADULT, planInput, SITE } from '../../support/planning.ts'

const tube = (code: string) => findTube(SITE.catalogue, code)!

describe('citrate', () => {
  it('worked example: 2.7 mL at 60 % needs 0.202 mL (CLSI H21 6th ed. 2024, adapted by a haemostasis teaching site)', () => {
    expect(citrateFor_mL(2.7, 60)).toBeCloseTo(0.202, 3)
    // The same page: remove 0.300 - 0.202 = 0.098 mL, in short 0.1 mL from a 3.0 mL tube at 55-65 %.
    expect(0.3 - citrateFor_mL(2.7, 60)).toBeCloseTo(0.098, 3)
    expect(0.3 - citrateFor_mL(2.7, 60)).toBeCloseTo(0.1, 1)
  })

  it('worked example: 4.5 mL at 60 % needs 0.34 mL (university teaching slide)', () => {
    expect(citrateFor_mL(4.5, 60)).toBeCloseTo(0.34, 2)
  })

  it('stays within 4 % of the older formula 0.00185 (100 - Hct) V and its table (clinical diagnostics page)', () => {
    // V 5 mL: 55 % 0.416, 60 % 0.370, 65 % 0.324, 70 % 0.277. The page's own worked line for 65 % has a slip.
    for (const [haematocrit, old] of [
      [55, 0.416],
      [60, 0.37],
      [65, 0.324],
      [70, 0.277],
    ] as const) {
      expect(Math.abs(citrateFor_mL(5, haematocrit) / old - 1)).toBeLessThan(0.04)
    }
  })

  it('any air above 0.27 mL breaks a 2.7 mL draw, above 0.18 mL a 1.8 mL draw (90 % rule, calculated)', () => {
    expect(largestDeadVolume_mL(tube('citrate27'))).toBe(0.27)
    expect(largestDeadVolume_mL(tube('citrate18'))).toBe(0.18)
    expect(leastFill_mL(tube('citrate27'))).toBe(2.43)
  })

  it.each([
    [55, false],
    [56, true],
  ])(
    'haematocrit %s %%: warning that refers to the laboratory is %s',
    (haematocrit_pct, warned) => {
      const plan = planDraw(planInput(['pt'], { patient: { ...ADULT, haematocrit_pct } }))
      const warning = plan.warnings.find(({ code }) => code === 'citrateHaematocrit')
      expect(warning !== undefined).toBe(warned)
      if (warned) expect(warning?.text).toMatch(/laboratory.*Do not adjust one yourself/)
      expect(plan.problems).toEqual([])
    },
  )
})
