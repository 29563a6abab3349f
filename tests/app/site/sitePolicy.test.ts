import { describe, expect, it } from 'vitest'
import { keptPolicy, policyJson, previewPolicy } from '../../../src/app/site/sitePolicy.ts'
import { LIMIT_RANGES } from '../../../src/core/policy/limitRanges.ts'
import { LIMIT_KEYS } from '../../../src/core/policy/policy.ts'
import schema from '../../../src/data/schema/policy.schema.json' with { type: 'json' }
import { texts } from '../../../src/data/en/texts.ts'
import { samplePolicy as shipped } from '../../support/samplePlan.ts'

const preview = (limits: unknown) => previewPolicy(shipped, JSON.stringify({ limits }), texts.site)

describe('a file of limits', () => {
  it('has a range for every limit, from the published schema', () => {
    const published = schema.properties.limits.properties
    for (const key of LIMIT_KEYS) {
      const { minimum, maximum } = published[key].properties.value
      expect(LIMIT_RANGES[key], key).toEqual({ least: minimum, most: maximum })
      expect(LIMIT_RANGES[key].most, key).toBeLessThan(Infinity)
      expect(shipped.limits[key].value).toBeGreaterThanOrEqual(LIMIT_RANGES[key].least)
    }
  })

  it('changes what it names and keeps the rest', () => {
    const { changes, next } = preview({
      bandRest_s: 180,
      pressure_s: { value: 240, source: 'our own rule 12' },
    })
    expect(changes).toEqual([
      { key: 'bandRest_s', from: 120, to: 180 },
      { key: 'pressure_s', from: 120, to: 240 },
    ])
    expect(next?.limits.pressure_s).toEqual({
      value: 240,
      source: 'our own rule 12',
      backing: 'site',
    })
    expect(next?.limits.bandLimit_s).toEqual(shipped.limits.bandLimit_s)
  })

  it('is nothing new when it is the shipped one', () => {
    expect(previewPolicy(shipped, policyJson(shipped), texts.site)).toMatchObject({
      faults: [],
      changes: [],
    })
  })

  it.each([
    ['an unknown limit', { bandLenght_s: 60 }, 'bandLenght_s'],
    ['a word', { bandRest_s: 'two minutes' }, 'bandRest_s'],
    ['a negative', { bandRest_s: -5 }, 'bandRest_s'],
    ['more attempts than published', { attemptsPerPerson_n: 3 }, 'attemptsPerPerson_n'],
    ['cues after the limit', { bandLimit_s: 40 }, 'bandLastCue_s'],
  ])('is refused whole for %s, by name', (_what, limits, key) => {
    const { faults, next, changes } = preview({ pressure_s: 240, ...limits })
    expect(next).toBeUndefined()
    expect(changes).toEqual([])
    expect(faults.length).toBeGreaterThan(0)
    if (key !== 'bandLastCue_s') expect(faults.map((fault) => fault.key)).toContain(key)
    else expect(faults[0]?.text).toContain('bandLastCue_s')
  })

  it.each(['', '[]', '{"limits": 4}', 'x'])('is refused when it is no such file: %s', (text) => {
    expect(previewPolicy(shipped, text, texts.site).next).toBeUndefined()
  })
})

describe('the kept limits', () => {
  it('are used as they were accepted, and shown as changes from the shipped ones', () => {
    const { next } = preview({ bandRest_s: 180 })
    const { value: policy, faults } = keptPolicy(shipped, next && policyJson(next), texts.site)
    expect(policy.limits.bandRest_s.value).toBe(180)
    expect(faults).toEqual([])
  })

  it('give way to the shipped ones, with a word, when they do not read', () => {
    expect(keptPolicy(shipped, '{', texts.site)).toMatchObject({
      value: shipped,
      faults: [expect.stringContaining('shipped') as string],
    })
  })
})
