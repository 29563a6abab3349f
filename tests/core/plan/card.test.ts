import { describe, expect, it } from 'vitest'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import type { PlanInput } from '../../../src/core/plan/planInput.ts'
import { ADULT, planInput, SITE } from '../../support/planning.ts'

const NEWBORN = { ...ADULT, birthDate: '2026-11-23', weight_kg: 3.2, haematocrit_pct: 55 }
const plan = (tests: readonly string[], more: Partial<PlanInput> = {}) =>
  planDraw(planInput(tests, { patient: NEWBORN, ...more }))
const heel = { collecting: 'capillaryHeel' } as const

describe('the plan of a newborn card', () => {
  // Anticoagulants interfere, and paper is not filled from a tube: newborn screening pages of Texas and Ontario.
  it('is paper alone, before every tube, and never shares', () => {
    const { tubes, problems } = plan(['cbc', 'newbornScreen', 'bilirubinTotal'], heel)
    expect(problems).toEqual([])
    expect(tubes.map(({ additive }) => additive)).toEqual(['filterPaper', 'edtaK2', 'activatorGel'])
    expect(tubes[0]).toMatchObject({ tests: ['newbornScreen'], handling: ['dryFlat'] })
  })

  // Sent within 24 h: slph.dph.ncdhhs.gov, med.unr.edu (excerpts).
  it('has the time by which it is sent', () => {
    expect(plan(['newbornScreen'], heel).tubes[0]).toMatchObject({ timeLimit_min: 1440 })
  })

  it('is never planned from a vein nor into a tube, and the heel is proposed', () => {
    const venous = plan(['newbornScreen', 'cbc'])
    expect(venous.tubes.flatMap(({ tests }) => tests)).toEqual(['cbc'])
    expect(venous.uncovered).toEqual([
      { test: 'newbornScreen', reason: expect.stringMatching(/from the heel/) as string },
    ])
    expect(venous.advises).toBe('capillaryHeel')
    expect(plan(['newbornScreen']).advises).toBe('capillaryHeel')
    expect(plan(['newbornScreen'], { patient: ADULT }).advises).toBeUndefined()
  })

  it('stops where every card has expired, and takes none of them', () => {
    const stock = SITE.stock.map((lot) =>
      lot.tubeCode === 'filterCard' ? { ...lot, expires: '2026-11-24' } : lot,
    )
    const { tubes, uncovered } = plan(['newbornScreen'], { ...heel, stock })
    expect(tubes).toEqual([])
    expect(uncovered[0]?.reason).toMatch(/expired/)
  })

  it('without a weight waits for a provider, as any blood of a newborn does', () => {
    const { weight_kg: _kg, ...patient } = NEWBORN
    expect(plan(['newbornScreen'], { ...heel, patient }).problems.map(({ code }) => code)).toEqual([
      'weightMissing',
    ])
  })
})
