import { median } from './middle.ts'
import { RUNS_FROM_n, runsLimits, type RunsLimits } from './runsLimits.ts'

/** So many in a row on one side of the median are a shift, so many that go one way a trend. */
const SHIFT_n = 6
const TREND_n = 5

/** Where something other than chance shows; `from` and `to` are places among the values. */
export interface RunSignal {
  readonly rule: 'shiftUp' | 'shiftDown' | 'trendUp' | 'trendDown'
  readonly from: number
  readonly to: number
  readonly length: number
}

export interface RunChart {
  readonly median: number | undefined
  /** Values that are not on the median. */
  readonly useful: number
  readonly runs: number
  /** `undefined` where there are too few values to say. */
  readonly limits: RunsLimits | undefined
  readonly tooMany: boolean
  readonly tooFew: boolean
  readonly signals: readonly RunSignal[]
}

/**
 * A run chart: the median of the values in their order, and what in that order is unlikely by chance. Six or more in a
 * row on one side are a shift; values on the median are passed over. Five or more that all go one way are a trend;
 * of equal neighbors only the first counts (Perla, Provost and Murray 2011, BMJ Qual Saf 20:46, as excerpts tell its
 * rules). Neither is called below ten values.
 */
export function runChart(values: readonly number[]): RunChart {
  const middle = median(values)
  const sides = values.flatMap((value, at) =>
    middle === undefined || value === middle ? [] : [{ at, way: value > middle ? 1 : -1 }],
  )
  const above = sides.filter(({ way }) => way > 0).length
  const limits = runsLimits(above, sides.length - above)
  const runs = runsOf(sides)
  const steps = values.flatMap((value, at) => {
    const before = values[at - 1]
    return before === undefined || before === value ? [] : [{ at, way: value > before ? 1 : -1 }]
  })
  const signals: readonly RunSignal[] = [
    ...runs.flatMap(({ from, to, length, way }): RunSignal[] =>
      length < SHIFT_n ? [] : [{ rule: way > 0 ? 'shiftUp' : 'shiftDown', from, to, length }],
    ),
    // Five values that go one way are four steps; the first value stands before the first step.
    ...runsOf(steps).flatMap(({ from, to, length, way }): RunSignal[] =>
      length + 1 < TREND_n
        ? []
        : [
            {
              rule: way > 0 ? 'trendUp' : 'trendDown',
              from: from - 1,
              to,
              length: length + 1,
            },
          ],
    ),
  ]
  return {
    median: middle,
    useful: sides.length,
    runs: runs.length,
    limits,
    tooMany: limits !== undefined && runs.length > limits.most,
    tooFew: limits !== undefined && runs.length < limits.least,
    signals: values.length < RUNS_FROM_n ? [] : signals,
  }
}

interface Run {
  readonly way: number
  readonly from: number
  readonly to: number
  readonly length: number
}

/** Stretches of neighbors that go the same way. */
function runsOf(sides: readonly { readonly at: number; readonly way: number }[]): readonly Run[] {
  const runs: Run[] = []
  for (const { at, way } of sides) {
    const last = runs.at(-1)
    if (last?.way === way) runs[runs.length - 1] = { ...last, to: at, length: last.length + 1 }
    else runs.push({ way, from: at, to: at, length: 1 })
  }
  return runs
}
