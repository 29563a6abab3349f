import * as ss from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import fc from 'fast-check'
import { median, quantile } from '../../../src/core/figures/middle.ts'
import { pChart } from '../../../src/core/figures/pChart.ts'
import { runChart } from '../../../src/core/figures/runChart.ts'
import { runsChances, runsLimits } from '../../../src/core/figures/runsLimits.ts'
import { xmrChart } from '../../../src/core/figures/xmrChart.ts'

/** A stretch whose share stands for all others: as many as needed to give that p̄. */
const limitsOf = (center: number, of: number) => {
  const chart = pChart([{ count: center * of, of }])
  const [point] = chart.points
  return [point?.lower, point?.upper]
}

describe('a proportion chart has the limits of published examples', () => {
  it.each([
    // justaaa.com 90864 (excerpt).
    { center: 0.15, of: 400, lower: 0.0964, upper: 0.2036 },
    // fliphtml5.com eraqv 489 (excerpt).
    { center: 0.16, of: 200, lower: 0.0822, upper: 0.2378 },
    // vaia.com q22e (excerpt).
    { center: 0.0945, of: 200, lower: 0.0325, upper: 0.1565 },
    // 24houranswers.com 21302: the problem from the page, the limits worked out by hand.
    { center: 0.02, of: 350, lower: 0, upper: 0.0424 },
    { center: 0.02, of: 450, lower: 0.0002, upper: 0.0398 },
    // NIST/SEMATECH e-Handbook 6.3.3.2, 30 wafers of 50 chips: p̄ 0.2313 from the page, limits 0.0524 and 0.4102 from memory.
    { center: 0.2313, of: 50, lower: 0.0524, upper: 0.4102 },
    // tutorsglobe.com 51519613 has n 400 and p̄ 0.05 with limits 0.0191 and 0.0809 at some width: 2.84 deviations, so ours are wider.
    { center: 0.05, of: 400, lower: 0.0173, upper: 0.0827 },
  ])('p̄ $center of $of', ({ center, of, lower, upper }) => {
    const [low, high] = limitsOf(center, of)
    // To the fourth digit; one page drops the fifth where another rounds it.
    expect(Math.abs(Number(low) - lower)).toBeLessThan(0.0001)
    expect(Math.abs(Number(high) - upper)).toBeLessThan(0.0001)
  })

  it('calls 22 of 450 out where 2 of 100 is usual, and each stretch has the limits of its own number', () => {
    // 24houranswers.com 21302: 22/450 = 0.0489 lies above 0.0398.
    const others = Array.from({ length: 200 }, () => ({ count: 9, of: 450 }))
    const { points } = pChart([...others, { count: 22, of: 450 }])
    expect(points.at(-1)?.isOut).toBe(true)
    expect(points[0]?.isOut).toBe(false)
    const two = pChart([
      { count: 5, of: 50 },
      { count: 20, of: 200 },
    ]).points
    expect(Number(two[0]?.upper)).toBeGreaterThan(Number(two[1]?.upper))
  })

  it('has no center and no limits where nothing was counted, and none for an empty stretch among others', () => {
    expect(pChart([]).center).toBeUndefined()
    expect(pChart([{ count: 0, of: 0 }]).points[0]?.share).toBeUndefined()
    const { points } = pChart([
      { count: 0, of: 0 },
      { count: 1, of: 10 },
    ])
    expect(points[0]).toMatchObject({ share: undefined, lower: undefined, isOut: false })
  })

  it('stays within 0 and 1 and its center is the mean of the shares weighed by their numbers (simple-statistics)', () => {
    const stretch = fc
      .integer({ min: 1, max: 500 })
      .chain((of) => fc.integer({ min: 0, max: of }).map((count) => ({ count, of })))
    fc.assert(
      fc.property(fc.array(stretch, { minLength: 1, maxLength: 40 }), (stretches) => {
        const { center, points } = pChart(stretches)
        const each = stretches.flatMap(({ count, of }) =>
          Array.from({ length: of }, (_, i) => (i < count ? 1 : 0)),
        )
        expect(center).toBeCloseTo(ss.mean(each), 9)
        const n = stretches[0]?.of ?? 1
        // The deviation of a mean of n of these, by the library.
        const reach = (3 * ss.standardDeviation(each)) / Math.sqrt(n)
        expect(points[0]?.upper).toBeCloseTo(Math.min(1, ss.mean(each) + reach), 9)
        expect(points[0]?.lower).toBeCloseTo(Math.max(0, ss.mean(each) - reach), 9)
      }),
      { numRuns: 50 },
    )
  })
})

describe('an individuals chart', () => {
  // NIST/SEMATECH e-Handbook 6.3.2.2: ten batches of flow rates, mean 50.81, mean moving range 1.8778, limits 45.8159 and
  // 55.8041 (the figures as a public test report quotes them; the ten values from memory, and they give these figures).
  const FLOW = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]

  it('has the limits of the handbook example', () => {
    const chart = xmrChart(FLOW)
    expect(chart?.center).toBeCloseTo(50.81, 4)
    expect(chart?.movingRange).toBeCloseTo(1.8778, 4)
    expect(chart?.upper).toBeCloseTo(55.8041, 3)
    expect(chart?.lower).toBeCloseTo(45.8159, 3)
  })

  it('says nothing of one value, and a time never has a limit below 0', () => {
    expect(xmrChart([])).toBeUndefined()
    expect(xmrChart([3])).toBeUndefined()
    expect(xmrChart([1, 9, 1, 9], 0)?.lower).toBe(0)
  })
})

describe('middle values are those of simple-statistics', () => {
  it('for any values', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -999, max: 999 }), { minLength: 1 }), (values) => {
        expect(median(values)).toBeCloseTo(ss.median(values), 9)
      }),
    )
  })

  it('and quartiles are those of Hyndman and Fan, type 7: 1 2 3 4 gives 1.75 and 3.25', () => {
    // R documentation of quantile(), from memory.
    expect(quantile([4, 1, 3, 2], 0.25)).toBe(1.75)
    expect(quantile([4, 1, 3, 2], 0.75)).toBe(3.25)
    expect(quantile([], 0.5)).toBeUndefined()
  })
})

describe('chances of a number of runs are those of Swed and Eisenhart 1943', () => {
  const upTo = (runs: number, above: number, below: number): number =>
    runsChances(above, below)
      .slice(0, runs + 1)
      .reduce((all, chance) => all + chance, 0)

  it.each([
    // Table I, two of one kind, as the documentation of an R package (pruns) prints it.
    { below: 2, to2: 0.333333333, to3: 0.6666667, to4: 1 },
    { below: 3, to2: 0.2, to3: 0.5, to4: 0.9 },
    { below: 5, to2: 0.095238095, to3: 0.3333333, to4: 0.7142857 },
    { below: 10, to2: 0.03030303, to3: 0.1818182, to4: 0.4545455 },
    { below: 12, to2: 0.021978022, to3: 0.1538462, to4: 0.3956044 },
  ])('two and $below', ({ below, to2, to3, to4 }) => {
    expect(upTo(2, 2, below)).toBeCloseTo(to2, 7)
    expect(upTo(3, 2, below)).toBeCloseTo(to3, 6)
    expect(upTo(4, 2, below)).toBeCloseTo(to4, 6)
  })

  it('gives the lower and upper critical values of their table at 5 %: reject at or beyond these', () => {
    // Critical values for equal numbers as textbooks print them (10: 6 and 16, 15: 10 and 22, 20: 14 and 28), from memory.
    expect(runsLimits(10, 10)).toEqual({ least: 7, most: 15 })
    expect(runsLimits(15, 15)).toEqual({ least: 11, most: 21 })
    expect(runsLimits(20, 20)).toEqual({ least: 15, most: 27 })
  })

  it('lies within one of the table that is printed for run charts', () => {
    // Perla, Provost and Murray 2011, table of runs, as a public program repeats it: points off the median, least, most.
    const PRINTED = [
      [10, 3, 9], [11, 3, 10], [12, 3, 11], [13, 4, 11], [14, 4, 12], [15, 5, 12], [16, 5, 13], [17, 5, 13],
      [18, 6, 14], [19, 6, 15], [20, 6, 16], [21, 7, 16], [22, 7, 17], [23, 7, 17], [24, 8, 18], [25, 8, 18],
      [26, 9, 19], [27, 9, 20], [28, 10, 20], [29, 10, 21], [30, 11, 22], [31, 11, 22], [32, 11, 23],
      [33, 11, 24], [34, 12, 24], [35, 12, 25], [36, 13, 25], [37, 13, 26], [38, 14, 26], [39, 14, 27], [40, 15, 27],
    ] as const // prettier-ignore
    for (const [n, least, most] of PRINTED) {
      const ours = runsLimits(Math.floor(n / 2), Math.ceil(n / 2))
      expect(Math.abs(Number(ours?.least) - least), String(n)).toBeLessThanOrEqual(1)
      expect(Math.abs(Number(ours?.most) - most), String(n)).toBeLessThanOrEqual(1)
    }
  })

  it('is not asked below ten points, nor where all are on one side', () => {
    expect(runsLimits(4, 5)).toBeUndefined()
    expect(runsLimits(12, 0)).toBeUndefined()
  })

  it('adds up to one for hundreds of points', () => {
    expect(upTo(800, 400, 400)).toBeCloseTo(1, 9)
  })
})

describe('a run chart', () => {
  it('has too few runs where sixteen months give four (qualitydigest.com, October 2008: 5 to 12 expected)', () => {
    // Seven above, seven below, one above, one below.
    const values = [9, 8, 9, 7, 9, 8, 9, 2, 1, 2, 3, 1, 2, 1, 9, 1]
    const chart = runChart(values)
    expect(chart.runs).toBe(4)
    expect(chart.tooFew).toBe(true)
    expect(chart.signals.map(({ rule }) => rule)).toEqual(['shiftUp', 'shiftDown'])
  })

  it('calls six on one side a shift and not five, and passes over what lies on the median', () => {
    const six = runChart([1, 5, 1, 5, 1, 5, 1, 5, 5, 5, 3, 5, 5, 1, 1, 1, 5, 1, 1])
    expect(six.median).toBe(3)
    expect(six.signals.filter(({ rule }) => rule === 'shiftUp')).toEqual([])
    const seven = runChart([1, 5, 1, 5, 1, 5, 1, 5, 5, 5, 3, 5, 5, 5, 1, 1, 1, 1, 1])
    expect(seven.signals.find(({ rule }) => rule === 'shiftUp')).toEqual({
      rule: 'shiftUp',
      from: 7,
      to: 13,
      length: 6,
    })
  })

  it('calls five that go one way a trend and not four; of equal neighbors one counts', () => {
    const calm = [5, 6, 4, 6, 4, 6, 4, 6, 4]
    const trends = (values: readonly number[]) =>
      runChart(values).signals.filter(({ rule }) => rule === 'trendUp')
    expect(trends([...calm, 5, 6, 7])).toEqual([])
    expect(trends([...calm, 5, 6, 7, 8])).toEqual([{ rule: 'trendUp', from: 8, to: 12, length: 5 }])
    expect(trends([...calm, 5, 5, 6, 7, 8])).toEqual([
      { rule: 'trendUp', from: 8, to: 13, length: 5 },
    ])
  })

  it('says nothing of few values, and nothing of none', () => {
    expect(runChart([]).median).toBeUndefined()
    const few = runChart([1, 2, 3, 4, 5, 6, 7])
    expect(few.limits).toBeUndefined()
    expect(few.signals).toEqual([])
  })
})
