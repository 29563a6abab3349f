import { describe, expect, it } from 'vitest'
import { planSittings } from '../../../src/core/plan/planSittings.ts'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import { ADULT, planInput } from '../../support/planning.ts'

describe('the plans of an order', () => {
  it('is the plan it always was where there is no series', () => {
    const input = planInput(['cbc', 'bmp'])
    expect(planSittings(input).map(({ plan }) => plan)).toEqual([planDraw(input)])
  })

  // At most 3 % of the blood volume in a draw and 1-5 % a day (Howie 2011): five samples pass what one does not, also in micro-collection tubes.
  it('holds the limits for blood against all sittings together', () => {
    const child = { ...ADULT, birthDate: '2026-11-10', weight_kg: 0.5, haematocrit_pct: 36 }
    const stops = (tests: readonly string[]) =>
      planSittings(planInput(tests, { patient: child })).map(({ plan }) =>
        plan.problems.map(({ code }) => code),
      )
    expect(stops(['glucoseFasting'])).toEqual([[]])
    const all = stops(['lactoseTolerance'])
    expect(all[0]).toEqual([])
    expect(all.at(-1)).toContain('overLimit')
  })

  it('takes from the stock what the sittings before it use', () => {
    const { stock, ...input } = planInput(['ogtt75'])
    const fluoride = stock.filter(({ tubeCode }) => /fluoride/i.test(tubeCode))
    const [kind] = fluoride
    const one = [{ ...kind!, count: 2 }]
    const plans = planSittings({ ...input, stock: one }).map(({ plan }) => plan.uncovered.length)
    expect(plans).toEqual([0, 0, 1])
  })

  it('asks when the last dose of a level was, and says how long it must be ago', () => {
    const warns = (lastDoses: { test: string; at?: string }[]) => {
      const input = planInput(['digoxin'])
      const preparation = { ...input.preparation, lastDoses }
      const [{ plan }] = planSittings({ ...input, preparation })
      return plan.warnings.filter(({ code }) => code === 'timing').map(({ text }) => text)
    }
    expect(warns([])).toEqual([expect.stringContaining('When was the last dose of Digoxin?')])
    expect(warns([{ test: 'digoxin' }])).toEqual([expect.stringContaining('last dose')])
    // Aust Prescr: 6 h or more after the dose (second-hand).
    expect(warns([{ test: 'digoxin', at: '2026-11-25T06:00' }])).toEqual([
      'Digoxin: at least 6 h after the last dose, which was 25 Nov 2026 06:00.',
    ])
  })
})
