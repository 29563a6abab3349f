import { describe, expect, it } from 'vitest'
import {
  limit,
  limit_ms,
  LIMIT_KEYS,
  policyChanges,
  type LimitKey,
} from '../../../src/core/policy/policy.ts'
import { samplePolicy } from '../../support/samplePlan.ts'

/** What the shipped values are held against. Where sources differ the stricter is the default. */
const CHECKS: readonly (readonly [LimitKey, number, string])[] = [
  [
    'bandLimit_s',
    60,
    'maximum 1 min, CLSI GP41 as summarized in training texts (study manuals allow 2 min)',
  ],
  [
    'bandRest_s',
    120,
    'if exceeded release and wait 2 min, CLSI GP41 as summarized in training texts',
  ],
  ['drying_s', 30, '30 s dry, hospital blood culture collection procedures'],
  ['pressure_s', 120, '1-2 min, NSRR HeartBEAT study manual; at least 2 min, patient leaflet'],
  ['pressureAnticoagulant_s', 300, '5 min recommended, Geriatr Nurs 2026;69:103918 (NCT05580965)'],
  ['pressureArtery_s', 300, 'at least 5 min, CLSI GP41-A7 as explained in a 2018 column'],
  ['siteWatch_s', 10, 'watch 5-10 s before bandaging, CLSI GP41-A7 as explained in a 2018 column'],
  ['bandage_min', 15, 'at least 15 min, NSRR HeartBEAT study manual'],
  [
    'attemptsPerPerson_n',
    2,
    'not more than 2 a person, then another collector, NSRR HeartBEAT study manual',
  ],
  ['faintRest_min', 15, 'more than 15 min lying advised, J Health Eval Promot 42(6):623'],
  ['prophylaxisWindow_h', 72, 'window 72 h, USPHS 2013 (Kuhar, ICHE 34:875) as summarized'],
  ['separate_min', 120, 'within 2 h of collection, several laboratory handbook pages'],
  [
    'warmLeast_min',
    3,
    '3 to 5 min, state newborn screening pages (NC, KS) and labce.com, excerpts',
  ],
  ['warmMost_min', 5, '3 to 5 min, state newborn screening pages (NC, KS) and labce.com, excerpts'],
  [
    'warmMost_C',
    41,
    'up to 41 °C, state pages (NC, KS); labce.com allows 42 °C, the stricter is kept',
  ],
  ['bandageFrom_y', 2, 'none under two years, training pages of the trade'],
  ['cardCircles_n', 5, 'five circles, newborn screening page of Ontario, excerpt'],
  ['cardAge_h', 24, '24 to 48 h of age, state newborn screening pages (NV, UT, MO), excerpts'],
  ['cardDry_h', 3, 'at least 3 h flat, state newborn screening pages (NC, UT), excerpts'],
  ['ownName_y', 5, 'common practice, no source'],
  ['ownConsent_y', 16, 'common practice, no source; the law of the place comes first'],
  ['clotMost_min', 90, 'public study manuals, 30-90 min (a reference manual allows 2 h)'],
]

describe('the shipped limits', () => {
  it.each(CHECKS)('%s is %d: %s', (key, value) => {
    expect(limit(samplePolicy, key)).toBe(value)
  })

  it('each name their source, and say so where there is none', () => {
    for (const key of LIMIT_KEYS) {
      const { source, backing } = samplePolicy.limits[key]
      expect(source.length).toBeGreaterThan(10)
      expect(backing === 'commonPractice').toBe(source.includes('common practice, no source'))
    }
  })

  it('have their cues before the minute is over, in order', () => {
    const cues = (
      ['bandFirstCue_s', 'bandSecondCue_s', 'bandLastCue_s', 'bandLimit_s'] as const
    ).map((key) => limit(samplePolicy, key))
    expect(cues).toEqual([...cues].sort((a, b) => a - b))
    expect(new Set(cues).size).toBe(4)
  })
})

describe('a limit as a length of time', () => {
  it('goes by the unit that ends its name', () => {
    expect(limit_ms(samplePolicy, 'bandLimit_s')).toBe(60_000)
    expect(limit_ms(samplePolicy, 'faintRest_min')).toBe(900_000)
    expect(limit_ms(samplePolicy, 'prophylaxisWindow_h')).toBe(259_200_000)
    expect(() => limit_ms(samplePolicy, 'attemptsPerPerson_n')).toThrow(RangeError)
  })
})

describe('a site that changes a limit', () => {
  it('has it shown, from what to what', () => {
    const bandLimit_s = { value: 90, source: 'site policy 7', backing: 'site' as const }
    const site = { ...samplePolicy, limits: { ...samplePolicy.limits, bandLimit_s } }
    expect(policyChanges(samplePolicy, site)).toEqual([{ key: 'bandLimit_s', from: 60, to: 90 }])
    expect(policyChanges(samplePolicy, samplePolicy)).toEqual([])
  })
})
