/** Three standard deviations by the mean moving range of two: 3 / 1.128 (d2 for two values). */
const REACH = 3 / 1.128

export interface XmrChart {
  readonly center: number
  /** Mean of the differences between neighbors. */
  readonly movingRange: number
  readonly lower: number
  readonly upper: number
}

/**
 * An individuals chart: mean ± 2.66 × mean moving range (NIST/SEMATECH e-Handbook 6.3.2.2, individuals control charts).
 * The lower limit of a time is held at `least`. `undefined` of fewer than two values.
 */
export function xmrChart(values: readonly number[], least = -Infinity): XmrChart | undefined {
  if (values.length < 2) return undefined
  const center = mean(values)
  const ranges = values.slice(1).map((value, i) => Math.abs(value - (values[i] ?? value)))
  const movingRange = mean(ranges)
  return {
    center,
    movingRange,
    lower: Math.max(least, center - REACH * movingRange),
    upper: center + REACH * movingRange,
  }
}

const mean = (values: readonly number[]): number =>
  values.reduce((all, value) => all + value, 0) / values.length
