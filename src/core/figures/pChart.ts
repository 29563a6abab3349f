/** Of how many in one stretch of time, and to how many it happened. */
export interface Proportion {
  readonly count: number
  readonly of: number
}

export interface PChartPoint extends Proportion {
  /** 0 to 1; `undefined` where there was nothing to count. */
  readonly share: number | undefined
  readonly lower: number | undefined
  readonly upper: number | undefined
  /** Beyond its own limits. */
  readonly isOut: boolean
}

export interface PChart {
  /** All that happened over all that could, 0 to 1; `undefined` of nothing. */
  readonly center: number | undefined
  readonly points: readonly PChartPoint[]
}

/**
 * A p chart: each stretch with limits of its own, p̄ ± 3√(p̄(1 − p̄)/n), held within 0 and 1 (NIST/SEMATECH e-Handbook
 * 6.3.3.2, proportions control charts; SAS SHEWHART, p chart).
 */
export function pChart(stretches: readonly Proportion[]): PChart {
  const count = sum(stretches.map((each) => each.count))
  const of = sum(stretches.map((each) => each.of))
  if (of === 0) return { center: undefined, points: stretches.map(empty) }
  const center = count / of
  return {
    center,
    points: stretches.map((each) => {
      if (each.of === 0) return empty(each)
      const reach = 3 * Math.sqrt((center * (1 - center)) / each.of)
      const share = each.count / each.of
      const lower = Math.max(0, center - reach)
      const upper = Math.min(1, center + reach)
      return { ...each, share, lower, upper, isOut: share < lower || share > upper }
    }),
  }
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0)

const empty = ({ count, of }: Proportion): PChartPoint => ({
  count,
  of,
  share: undefined,
  lower: undefined,
  upper: undefined,
  isOut: false,
})
