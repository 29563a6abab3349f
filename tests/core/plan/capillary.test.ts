import { describe, expect, it } from 'vitest'
import { mayOpen, stopsForGood } from '../../../src/core/plan/decisions.ts'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import type { PlanInput } from '../../../src/core/plan/planInput.ts'
import { ADULT, planInput, WINGED } from '../../support/planning.ts'

const NEWBORN = { ...ADULT, birthDate: '2026-11-22', weight_kg: 3.2, haematocrit_pct: 55 }
const heel = (tests: readonly string[], more: Partial<PlanInput> = {}) =>
  planDraw(
    planInput(tests, { patient: NEWBORN, collecting: 'capillaryHeel', needleSet: WINGED, ...more }),
  )
const codes = (notices: readonly { readonly code: string }[]) => notices.map(({ code }) => code)

describe('blood from a finger or heel', () => {
  // Order of collection for capillary specimens, as quoted by labce.com: gas, EDTA, other additives, serum.
  it('has an order of its own: EDTA, other additives, serum', () => {
    const plan = heel(['bilirubinTotal', 'cbc', 'glucose'])
    const group = plan.tubes.map(({ additive }) => additive)
    expect(group[0]).toBe('edtaK2')
    expect(group.indexOf('fluorideOxalate')).toBeLessThan(group.indexOf('activatorGel'))
    expect(plan.problems).toEqual([])
  })

  it('is of micro-collection tubes alone, with no discard tube, no band and no time of filling', () => {
    const plan = heel(['bilirubinTotal', 'cbc'])
    expect(plan.tubes.every(({ tubeCode }) => tubeCode.includes('icro'))).toBe(true)
    expect(plan.tubes.every(({ fill }) => fill.expected_s === 0 && fill.trusted === false)).toBe(
      true,
    )
    expect(plan.band.predicted_s).toBe(0)
    expect(codes(plan.warnings)).toEqual([])
  })

  // No light blue tube from capillary blood: labce.com; cultures and sedimentation: common practice, no source.
  it.each(['pt', 'bloodCultureChild', 'esr'])('refuses %s with the reason and a way on', (test) => {
    const plan = heel([test, 'cbc'])
    expect(plan.uncovered).toEqual([
      { test, reason: expect.stringMatching(/from a vein/) as string },
    ])
    expect(plan.tubes.map(({ tests }) => tests)).toEqual([['cbc']])
    const decided = { about: 'missingTube', by: 'Dr. Pat', reason: 'x', at_ms: 0 } as const
    expect([mayOpen(plan, []), mayOpen(plan, [decided])]).toEqual([false, true])
  })

  it('a heel is for infants under a year, a finger from then on, and nobody decides otherwise', () => {
    const born = (birthDate: string) => ({ patient: { ...NEWBORN, birthDate } })
    expect(codes(heel(['cbc'], born('2025-11-26')).problems)).toEqual([])
    expect(codes(heel(['cbc'], born('2025-11-25')).problems)).toEqual(['capillarySite'])
    const finger = { collecting: 'capillaryFinger' } as const
    expect(codes(heel(['cbc'], { ...born('2025-11-25'), ...finger }).problems)).toEqual([])
    const young = heel(['cbc'], { ...born('2025-11-26'), ...finger })
    expect(codes(stopsForGood(young))).toEqual(['capillarySite'])
    expect(mayOpen(young, [])).toBe(false)
  })

  it('restricted arms stop a finger and not a heel', () => {
    const restrictions = { left: 'fistula', right: 'injury' } as const
    const preparation = { ...planInput([]).preparation, restrictions }
    expect(codes(heel(['cbc'], { preparation }).problems)).toEqual([])
    const finger = { collecting: 'capillaryFinger', patient: ADULT } as const
    expect(codes(heel(['cbc'], { preparation, ...finger }).problems)).toEqual(['bothArms'])
  })

  it('a newborn without a weight stops for a provider, one without a sex is planned', () => {
    const { weight_kg: _kg, ...noWeight } = NEWBORN
    expect(codes(heel(['cbc'], { patient: noWeight }).problems)).toEqual(['weightMissing'])
    const { sex: _sex, haematocrit_pct: _hct, ...noSex } = NEWBORN
    expect(heel(['cbc'], { patient: noSex }).problems).toEqual([])
  })

  it('premature: one micro tube, filled no more than the count needs', () => {
    const plan = heel(['cbc'], { patient: { ...NEWBORN, weight_kg: 0.9 } })
    expect(plan.blood.draw_mL).toBe(0.4)
    expect(codes(plan.problems)).toEqual([])
  })
})

describe('what a plan from a vein proposes', () => {
  const venous = (tests: readonly string[], more: Partial<PlanInput> = {}) =>
    planDraw(planInput(tests, { patient: NEWBORN, ...more })).advises

  it('the heel for an infant whose tests all can be had there', () => {
    expect(venous(['cbc', 'bilirubinTotal'])).toBe('capillaryHeel')
    expect(venous(['cbc', 'pt'])).toBeUndefined()
  })

  it('the finger only where it keeps a limit that a vein would pass', () => {
    const child = (weight_kg: number) => ({
      patient: { ...ADULT, birthDate: '2023-11-25', weight_kg },
    })
    expect(venous(['cbc'], child(14))).toBeUndefined()
    expect(venous(['cbc'], { patient: ADULT })).toBeUndefined()
  })

  it('nothing where drops are the way already', () => {
    expect(heel(['cbc']).advises).toBeUndefined()
  })
})
