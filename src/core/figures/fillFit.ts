import { isCorrection } from '../flow/fillCorrection.ts'
import type { FillMeasure } from './fillMeasures.ts'
import { isEnough } from './enough.ts'
import { median, quantile } from './middle.ts'

/** How the times of one set lie to what was predicted: 1 is as predicted, 2 twice as long. */
export interface FillFit {
  readonly set: string
  readonly gauge: number
  readonly n: number
  readonly within: number
  readonly ratio: number
  readonly quartiles: readonly [number, number]
  /** Where the true middle lies in 95 of 100; `undefined` of too few tubes. */
  readonly sure: readonly [number, number] | undefined
  /** The same against what would have been predicted without any correction: by how much to correct. */
  readonly factor: number
  readonly factorSure: readonly [number, number] | undefined
}

/**
 * Measured against predicted filling by set, thicker needles first. `n` counts tubes.
 * The middle is certain between two of the sorted ratios, whatever their distribution (order statistics and the
 * binomial: Conover, Practical Nonparametric Statistics, from memory; ranks 6 and 15 of 20 are the printed example).
 */
export function fillFits(fills: readonly FillMeasure[]): readonly FillFit[] {
  const bySet = new Map<string, FillMeasure[]>()
  for (const fill of fills) bySet.set(fill.set, [...(bySet.get(fill.set) ?? []), fill])
  return [...bySet]
    .flatMap(([set, own]) => fitOf(set, own) ?? [])
    .sort((a, b) => a.gauge - b.gauge || a.set.localeCompare(b.set))
}

function fitOf(set: string, own: readonly FillMeasure[]): FillFit | undefined {
  const ratios = own.map(({ took_s, expected_s }) => took_s / expected_s).sort((a, b) => a - b)
  const plain = own.map(({ took_s, plain_s }) => took_s / plain_s).sort((a, b) => a - b)
  const factor = median(plain)
  const ratio = median(ratios)
  const low = quantile(ratios, 0.25)
  const high = quantile(ratios, 0.75)
  const [first] = own
  if (
    !first ||
    factor === undefined ||
    ratio === undefined ||
    low === undefined ||
    high === undefined
  )
    return undefined
  return {
    set,
    gauge: first.gauge,
    n: own.length,
    within: own.filter(({ where }) => where === 'within').length,
    ratio,
    quartiles: [low, high],
    sure: isEnough(own.length) ? sureMiddle(ratios) : undefined,
    factor,
    factorSure: isEnough(own.length) ? sureMiddle(plain) : undefined,
  }
}

/** Chance, on each side, that the middle lies beyond. */
const TAIL = 0.025

function sureMiddle(sorted: readonly number[]): readonly [number, number] | undefined {
  const rank = middleRank(sorted.length)
  const low = sorted[rank - 1]
  const high = sorted[sorted.length - rank]
  return low === undefined || high === undefined ? undefined : [low, high]
}

/** The rank, from 1, of the value below which the middle lies with less than `TAIL`; 0 where there are too few. */
export function middleRank(n: number): number {
  // By its logarithm: of thousands of tubes the first chances are too small for a number.
  let log = n * Math.log(0.5)
  let sum = 0
  for (let k = 0; k < n; k++) {
    sum += Math.exp(log)
    if (sum > TAIL) return k
    log += Math.log((n - k) / (k + 1))
  }
  return 0
}

/**
 * By how much the prediction of a set may be corrected; `undefined` where there is no reason to: too few tubes, what is
 * in force lies where the true middle is sure to be, or it is so far off that something else must be wrong.
 * @param inForce the factor that predictions are made with now, 1 for none
 */
export function correctionFor(fit: FillFit, inForce: number): number | undefined {
  const { factor, factorSure } = fit
  if (!factorSure || (factorSure[0] <= inForce && inForce <= factorSure[1])) return undefined
  const rounded = Math.round(factor * 100) / 100
  return isCorrection(rounded) && rounded !== inForce ? rounded : undefined
}
