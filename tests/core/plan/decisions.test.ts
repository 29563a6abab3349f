import { describe, expect, it } from 'vitest'
import { mayOpen, stopsForGood, stopsToDecide } from '../../../src/core/plan/decisions.ts'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import type { PlanInput } from '../../../src/core/plan/planInput.ts'
import { ADULT, planInput, SITE } from '../../support/planning.ts'

const given = (about: 'bothArms' | 'missingTube' | 'volumeLimit') => ({
  about,
  by: 'Dr. Invented',
  reason: 'no other way',
  at_ms: 0,
})
const restrictions = { left: 'fistula', right: 'nodeRemoval' } as const
const bothArms = { preparation: { ...planInput([]).preparation, restrictions } }
const { weight_kg: _weight, ...noWeight } = { ...ADULT, birthDate: '2020-06-01' }
const noCitrate = { stock: SITE.stock.filter(({ tubeCode }) => !tubeCode.startsWith('citrate')) }

describe('a stop that a named provider may pass', () => {
  it.each<[string, Partial<PlanInput>, 'bothArms' | 'missingTube' | 'volumeLimit']>([
    ['both arms restricted', bothArms, 'bothArms'],
    ['a child without a weight', { patient: noWeight }, 'volumeLimit'],
    ['a missing tube', noCitrate, 'missingTube'],
  ])('%s', (_what, more, about) => {
    const plan = planDraw(planInput(['pt', 'cbc'], more))
    expect(stopsToDecide(plan).map((stop) => stop.about)).toEqual([about])
    expect([mayOpen(plan, []), mayOpen(plan, [given(about)])]).toEqual([false, true])
  })

  it('a missing tube takes only its own tests off the rack', () => {
    const plan = planDraw(planInput(['pt', 'cbc'], noCitrate))
    expect(plan.uncovered.map(({ test }) => test)).toEqual(['pt'])
    expect(plan.tubes.flatMap(({ tests }) => tests)).toEqual(['cbc'])
  })

  it('one decision does not stand for another', () => {
    const plan = planDraw(planInput(['pt', 'cbc'], { ...bothArms, ...noCitrate }))
    expect(mayOpen(plan, [given('bothArms')])).toBe(false)
    expect(mayOpen(plan, [given('bothArms'), given('missingTube')])).toBe(true)
  })
})

describe('a stop that nobody may pass', () => {
  it('a wrong entry is put right in the order', () => {
    const plan = planDraw(planInput(['cbc'], { patient: { ...ADULT, weight_kg: -3 } }))
    expect(stopsForGood(plan).map(({ code }) => code)).toEqual(['badWeight'])
    expect(mayOpen(plan, [given('volumeLimit')])).toBe(false)
  })

  it('a rack without a tube is no draw', () => {
    const plan = planDraw(planInput(['moonlight']))
    expect(mayOpen(plan, [given('missingTube')])).toBe(false)
  })
})
