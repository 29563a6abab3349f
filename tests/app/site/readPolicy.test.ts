import { describe, expect, it } from 'vitest'
import { keptPolicy, policyJson, readPolicy } from '../../../src/app/site/readPolicy.ts'
import { ok } from '../../../src/core/basics/result.ts'
import { LIMIT_RANGES } from '../../../src/core/policy/limitRanges.ts'
import { LIMIT_KEYS, policyChanges, type Policy } from '../../../src/core/policy/policy.ts'
import schema from '../../../src/data/schema/policy.schema.json' with { type: 'json' }
import { texts } from '../../../src/data/en/texts.ts'
import { samplePolicy as shipped } from '../../support/samplePlan.ts'

const readLimits = (limits: unknown) => readPolicy(shipped, JSON.stringify({ limits }), texts)
/** The policy of a file that reads. */
const policyOf = (limits: unknown): Policy => {
  const reading = readLimits(limits)
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
  return reading.value
}

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
    const next = policyOf({
      bandRest_s: 180,
      pressure_s: { value: 240, source: 'our own rule 12' },
    })
    expect(policyChanges(shipped, next)).toEqual([
      { key: 'bandRest_s', from: 120, to: 180 },
      { key: 'pressure_s', from: 120, to: 240 },
    ])
    expect(next.limits.pressure_s).toEqual({
      value: 240,
      source: 'our own rule 12',
      backing: 'site',
    })
    expect(next.limits.bandLimit_s).toEqual(shipped.limits.bandLimit_s)
  })

  it('is nothing new when it is the shipped one', () => {
    expect(readPolicy(shipped, policyJson(shipped), texts)).toEqual(ok(shipped))
    expect(policyChanges(shipped, shipped)).toEqual([])
  })

  it.each([
    ['an unknown limit', { bandLenght_s: 60 }, 'bandLenght_s'],
    ['a word', { bandRest_s: 'two minutes' }, 'bandRest_s'],
    ['a negative', { bandRest_s: -5 }, 'bandRest_s'],
    ['more attempts than published', { attemptsPerPerson_n: 3 }, 'attemptsPerPerson_n'],
    ['cues after the limit', { bandLimit_s: 40 }, 'bandLastCue_s'],
  ])('is refused whole for %s, by name', (_what, limits, key) => {
    const reading = readLimits({ pressure_s: 240, ...limits })
    expect(reading.ok).toBe(false)
    const faults = reading.ok ? [] : reading.faults
    expect(faults.length).toBeGreaterThan(0)
    if (key !== 'bandLastCue_s') expect(faults.map((fault) => fault.key)).toContain(key)
    else expect(faults[0]?.text).toContain('bandLastCue_s')
  })

  it.each(['', '[]', '{"limits": 4}', 'x'])('is refused when it is no such file: %s', (text) => {
    expect(readPolicy(shipped, text, texts).ok).toBe(false)
  })
})

describe('the kept limits', () => {
  it('are used as they were accepted, and shown as changes from the shipped ones', () => {
    const accepted = policyJson(policyOf({ bandRest_s: 180 }))
    const { value: policy, faults } = keptPolicy(shipped, accepted, texts)
    expect(policy.limits.bandRest_s.value).toBe(180)
    expect(faults).toEqual([])
  })

  it('give way to the shipped ones, with a word, when they do not read', () => {
    expect(keptPolicy(shipped, '{', texts)).toMatchObject({
      value: shipped,
      faults: [expect.stringContaining('shipped') as string],
    })
  })
})

describe('limits that contradict each other or count in parts', () => {
  const faultsOf = (limits: unknown) => {
    const reading = readLimits(limits)
    return reading.ok ? [] : reading.faults.map(({ key, text }) => `${key}: ${text}`)
  }

  it.each([
    [
      { pressure_s: 1200, pressureAnticoagulant_s: 60 },
      'pressureAnticoagulant_s: 60 must not be less than pressure_s (1200).',
    ],
    [{ mixStart_s: 60, mixLate_s: 30 }, 'mixLate_s: 30 must be more than mixStart_s (60).'],
    [{ attemptsPerPerson_n: 1.5 }, 'attemptsPerPerson_n: 1.5 is not a whole number.'],
    [{ bandLastCue_s: 60 }, 'bandLimit_s: 60 must be more than bandLastCue_s (60).'],
  ])('%o are refused', (limits, expected) => {
    expect(faultsOf(limits)).toContain(expected)
  })

  it('are refused when a key stands twice', () => {
    const reading = readPolicy(shipped, '{"limits":{"pressure_s":120,"pressure_s":240}}', texts)
    expect(reading.ok ? '' : reading.faults[0]?.text).toMatch(/"limits.pressure_s" stands twice/)
  })
})
