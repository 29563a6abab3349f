import { describe, expect, it } from 'vitest'
import { brokenRelations, LIMIT_RELATIONS } from '../../../src/core/policy/limitRelations.ts'
import type { LimitKey, Policy } from '../../../src/core/policy/policy.ts'
import { samplePolicy } from '../../support/samplePlan.ts'

const policyWith = (values: Partial<Record<LimitKey, number>>): Policy => {
  const limits = { ...samplePolicy.limits }
  for (const [key, value] of Object.entries(values) as [LimitKey, number][]) {
    limits[key] = { value, source: 'x', backing: 'site' }
  }
  return { ...samplePolicy, limits }
}

describe('limits that contradict each other', () => {
  it('are none in the shipped policy', () => {
    expect(brokenRelations(samplePolicy)).toEqual([])
  })

  it.each(LIMIT_RELATIONS)('$lower against $upper', ({ lower, upper, mayBeEqual }) => {
    const unit = (key: LimitKey): number => (key.endsWith('_min') ? 60 : 1)
    // The same length of time, then a little less for the one that should be the larger.
    const same = policyWith({ [lower]: 600 / unit(lower), [upper]: 600 / unit(upper) })
    const less = policyWith({ [lower]: 600 / unit(lower), [upper]: 599 / unit(upper) })
    const broken = (policy: Policy): boolean =>
      brokenRelations(policy).some((each) => each.lower === lower && each.upper === upper)
    expect(broken(same)).toBe(!mayBeEqual)
    expect(broken(less)).toBe(true)
  })
})
