import * as ss from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import type { DrawMeasures } from '../../../src/core/figures/drawMeasures.ts'
import { fillFits, middleRank } from '../../../src/core/figures/fillFit.ts'
import type { FillMeasure } from '../../../src/core/figures/fillMeasures.ts'
import { figuresOf } from '../../../src/core/figures/figuresOf.ts'
import { STRETCHES_n, stretchOf, stretchesTo } from '../../../src/core/figures/stretches.ts'

const TODAY = '2026-11-25'

const aDraw = (change: Partial<DrawMeasures> = {}): DrawMeasures => ({
  drawId: 'D7-20261125-0001',
  practice: false,
  closed: true,
  opened_ms: 0,
  day: TODAY,
  people: [],
  bands: [{ by: 'c1', length_s: 40, isOver: false }],
  punctures: [
    {
      by: 'c1',
      tries: 1,
      gaveBlood: true,
      needleToLast_s: 50,
    },
  ],
  fills: [],
  flags: [],
  reactions: [],
  specimens: 2,
  labelsRight: 2,
  pastLimit: 0,
  rejected: 0,
  ...change,
})

const many = (n: number, change: Partial<DrawMeasures> = {}): DrawMeasures[] =>
  Array.from({ length: n }, () => aDraw(change))

const figureOf = (draws: readonly DrawMeasures[], id: string) =>
  figuresOf(draws, 'days', TODAY).proportions.find((each) => each.id === id)

describe('stretches of a span', () => {
  it('begin weeks on Monday (ISO 8601: 2026-11-23 is the Monday of week 48)', () => {
    expect(stretchOf('2026-11-25', 'weeks')).toBe('2026-11-23')
    expect(stretchOf('2026-11-23', 'weeks')).toBe('2026-11-23')
    expect(stretchOf('2026-11-29', 'weeks')).toBe('2026-11-23')
    expect(stretchOf('2027-01-01', 'weeks')).toBe('2026-12-28')
  })

  it('end with today, hold empty ones, and go back over years and a leap day', () => {
    const months = stretchesTo('2028-03-01', 'months')
    expect(months).toHaveLength(STRETCHES_n.months)
    expect([months[0], months.at(-1)]).toEqual(['2026-04-01', '2028-03-01'])
    expect(stretchesTo('2028-03-01', 'days').at(-2)).toBe('2028-02-29')
    expect(stretchesTo(TODAY, 'weeks').at(-1)).toBe('2026-11-23')
  })
})

describe('figures', () => {
  it('of nothing say nothing', () => {
    const none = figuresOf([], 'weeks', TODAY)
    expect(none.draws).toBe(0)
    expect(none.fills).toEqual([])
    for (const { center, total } of none.proportions) {
      expect(center).toBeUndefined()
      expect(total).toEqual({ count: 0, of: 0 })
    }
    for (const { median_s, limits } of none.times)
      expect([median_s, limits]).toEqual([undefined, undefined])
  })

  it('of one draw tell counts and no share', () => {
    const one = figureOf([aDraw({ reactions: ['faint'] })], 'reaction')
    expect(one?.total).toEqual({ count: 1, of: 1 })
    expect(one?.center).toBeUndefined()
    expect(one?.points.every(({ lower }) => lower === undefined)).toBe(true)
  })

  it('tell a share from 20 cases on (AIHW technical notes: rates on fewer than 20 are withheld)', () => {
    expect(figureOf(many(19), 'reaction')?.center).toBeUndefined()
    expect(figureOf([...many(19), aDraw({ reactions: ['nausea'] })], 'reaction')?.center).toBe(0.05)
  })

  it('never put practice and patients together, and leave open draws out', () => {
    const draws = [
      ...many(3),
      ...many(5, { practice: true }),
      ...many(7, { closed: false }),
      ...many(2, { practice: true, closed: false }),
    ]
    expect(figuresOf(draws, 'days', TODAY).draws).toBe(3)
    expect(figuresOf(draws, 'days', TODAY, true).draws).toBe(5)
  })

  it('leave out days before the span and days that have not come', () => {
    const draws = [aDraw({ day: '2026-10-25' }), aDraw({ day: '2026-10-26' }), aDraw({ day: '2026-11-26' })] // prettier-ignore
    expect(figuresOf(draws, 'days', TODAY).draws).toBe(1)
  })

  it('count each thing of what it is of', () => {
    const puncture = aDraw().punctures[0]
    if (!puncture) throw new Error('no puncture')
    const draw = aDraw({
      bands: [
        { by: 'c1', length_s: 65, isOver: true },
        { by: 'c1', isOver: false },
      ],
      punctures: [{ ...puncture, tries: 2 }],
      flags: ['mixedLate'],
      specimens: 4,
      labelsRight: 3,
      pastLimit: 2,
      rejected: 1,
    })
    const totals = Object.fromEntries(
      figuresOf([draw], 'days', TODAY).proportions.map(({ id, total }) => [id, total]),
    )
    expect(totals).toEqual({
      bandOver: { count: 1, of: 2 },
      secondNeedle: { count: 1, of: 1 },
      reaction: { count: 0, of: 1 },
      flagged: { count: 1, of: 1 },
      labelUnread: { count: 1, of: 4 },
      pastLimit: { count: 2, of: 4 },
      rejected: { count: 1, of: 4 },
      fillOutside: { count: 0, of: 0 },
    })
  })

  it('do not count a draw without a needle among those in which one might have gone wrong', () => {
    expect(figureOf([aDraw({ punctures: [] })], 'secondNeedle')?.total).toEqual({ count: 0, of: 0 })
  })

  it('find the day on which it was otherwise', () => {
    const days = stretchesTo(TODAY, 'days')
    const usual = days.flatMap((day) => [
      ...many(19, { day }),
      aDraw({ day, flags: ['mixedLate'] }),
    ])
    const bad = many(9, { day: '2026-11-20', flags: ['mixedLate'] })
    const out = figureOf([...usual, ...bad], 'flagged')?.points.filter(({ isOut }) => isOut)
    expect(out?.map(({ from }) => from)).toEqual(['2026-11-20'])
  })
})

describe('figures by person', () => {
  it('are by who put the needle in, in the order of names', () => {
    const puncture = aDraw().punctures[0]
    if (!puncture) throw new Error('no puncture')
    const people = [
      { id: 'c2', name: 'Sam Sample', initials: 'SS' },
      { id: 'c1', name: 'Robin Example', initials: 'RE' },
    ]
    const draw = aDraw({
      people,
      bands: [
        { by: 'c1', length_s: 70, isOver: true },
        { by: 'c2', isOver: false },
      ],
      punctures: [
        { ...puncture, by: 'c1', tries: 2, gaveBlood: false },
        { ...puncture, by: 'c2' },
      ],
    })
    expect(figuresOf([draw], 'days', TODAY).people).toEqual([
      {
        person: people[1],
        draws: 1,
        gaveBlood: { count: 0, of: 2 },
        bandOver: { count: 1, of: 1 },
      },
      {
        person: people[0],
        draws: 1,
        gaveBlood: { count: 1, of: 1 },
        bandOver: { count: 0, of: 1 },
      },
    ])
  })
})

describe('filling against prediction', () => {
  const fill = (ratio: number, set = 'winged 23 thin 19 305 1.14'): FillMeasure => ({
    set,
    gauge: Number(set.split(' ')[1]),
    nominal_mL: 4,
    took_s: 10 * ratio,
    expected_s: 10,
    plain_s: 10,
    where: 'within',
  })

  it('is the middle of the ratios of each set, thicker needles first (middle by simple-statistics)', () => {
    const ratios = [1.2, 1.9, 1.4, 1.1, 1.3]
    const fits = fillFits([...ratios.map((each) => fill(each)), fill(0.8, 'straight 21 regular 32 0 0')]) // prettier-ignore
    expect(fits.map(({ set, n }) => [set, n])).toEqual([
      ['straight 21 regular 32 0 0', 1],
      ['winged 23 thin 19 305 1.14', 5],
    ])
    expect(fits[1]?.ratio).toBeCloseTo(ss.median(ratios), 9)
    expect(fits[1]?.sure).toBeUndefined()
  })

  it('says where the middle is sure to lie: ranks 6 and 15 of 20, 22 and 39 of 60 (tables of ranks, from memory)', () => {
    expect(middleRank(20)).toBe(6)
    expect(middleRank(60)).toBe(22)
    const ratios = Array.from({ length: 20 }, (_, i) => 1 + i / 10)
    expect(fillFits(ratios.map((each) => fill(each)))[0]?.sure).toEqual([1.5, 2.4])
  })

  it('agrees with the library’s binomial: the chance below the rank is at most 2.5 %, with the rank it is more', () => {
    for (const n of [20, 33, 100, 500]) {
      const chances = ss.binomialDistribution(n, 0.5) ?? []
      const upTo = (k: number) => ss.sum(chances.slice(0, k + 1))
      const rank = middleRank(n)
      expect(upTo(rank - 1)).toBeLessThanOrEqual(0.025)
      expect(upTo(rank)).toBeGreaterThan(0.025)
    }
  })

  it('can be told of thousands of tubes', () => {
    expect(middleRank(20_000)).toBeGreaterThan(9_800)
  })
})
