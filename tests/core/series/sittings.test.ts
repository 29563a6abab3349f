import { describe, expect, it } from 'vitest'
import { sittingsOf } from '../../../src/core/series/sittings.ts'
import { SITE } from '../../support/planning.ts'

const of = (...tests: string[]) =>
  sittingsOf(tests, SITE.catalogue).map((sitting) => ({
    tests: sitting.tests,
    points: sitting.parts.map(({ point, number, of: all }) => `${point} ${number}/${all}`),
  }))

describe('the draws of an order', () => {
  it('is one with its tests as they stand where there is no series', () => {
    expect(of('cbc', 'bmp', 'cbc')).toEqual([{ tests: ['cbc', 'bmp', 'cbc'], points: [] }])
    expect(of()).toEqual([{ tests: [], points: [] }])
  })

  // Fasting, 1 and 2 h after the drink (path.svhm.org.au, labguide.fairview.org 4210).
  it('is three for a glucose tolerance test, whether it is named or seen in its tests', () => {
    const three = [
      { tests: ['glucoseFasting', 'cbc'], points: ['fasting 1/3'] },
      { tests: ['glucose75g1h'], points: ['1 h 2/3'] },
      { tests: ['glucose75g2h'], points: ['2 h 3/3'] },
    ]
    expect(of('ogtt75', 'cbc')).toEqual(three)
    expect(of('glucose75g2h', 'cbc', 'glucoseFasting', 'glucose75g1h')).toEqual(three)
    expect(of('glucoseFasting', 'glucose75g2h')).toHaveLength(2)
  })

  // Two sets are two punctures (labce.com, UTMB LAB000185); a third 20 min later (calgarylabservices.com).
  it('is one for each set of culture bottles', () => {
    const set = ['bloodCultureAerobic', 'bloodCultureAnaerobic']
    expect(of(...set)).toEqual([{ tests: set, points: [] }])
    expect(of(...set, ...set)).toEqual([
      { tests: set, points: ['set 1 1/2'] },
      { tests: set, points: ['set 2 2/2'] },
    ])
    expect(of(...set, ...set, ...set).map(({ points }) => points)).toEqual([
      ['set 1 1/3'],
      ['set 2 2/3'],
      ['set 3 3/3'],
    ])
  })

  it('begins several series with one draw', () => {
    expect(of('ogtt75two', 'bloodGroup', 'bloodGroupSecond')).toEqual([
      { tests: ['glucoseFasting', 'bloodGroup'], points: ['fasting 1/2', 'first sample 1/2'] },
      { tests: ['glucose75g2h'], points: ['2 h 2/2'] },
      { tests: ['bloodGroupSecond'], points: ['second sample 2/2'] },
    ])
  })

  it('does not take a test ordered twice for a series that nobody named', () => {
    expect(of('troponin', 'troponin')).toEqual([{ tests: ['troponin', 'troponin'], points: [] }])
    expect(of('troponin0and3h')).toHaveLength(2)
  })
})
