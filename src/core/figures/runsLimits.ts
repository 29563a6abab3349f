/** Fewer points off the median say nothing about their order: published tables of run charts begin at 10. */
export const RUNS_FROM_n = 10

/** Each side of what chance alone would give in 95 of 100. */
const TAIL = 0.025

/** The fewest and the most runs that are not surprising. */
export interface RunsLimits {
  readonly least: number
  readonly most: number
}

/**
 * Chance of each number of runs in a row of `above` and `below` in any order, by that number (Swed and Eisenhart 1943,
 * Ann Math Stat 14:66). The parts are added up as they come from each other, so that no factorial grows too large.
 */
export function runsChances(above: number, below: number): readonly number[] {
  const logAll = logChoose(above + below, above)
  const chance = (runs: number): number => {
    const half = Math.floor(runs / 2)
    const ways = (a: number, b: number): number => {
      const log = logChoose(above - 1, a) + logChoose(below - 1, b) - logAll
      return Math.exp(log)
    }
    if (runs < 2) return 0
    return runs % 2 === 0
      ? 2 * ways(half - 1, half - 1)
      : ways(half, half - 1) + ways(half - 1, half)
  }
  return Array.from({ length: above + below + 1 }, (_, runs) => chance(runs))
}

/**
 * How few and how many runs chance alone gives in 95 of 100; `undefined` where too few points are off the median.
 * Tables for run charts (Perla, Provost and Murray 2011, BMJ Qual Saf 20:46) are of the same test and differ by one.
 */
export function runsLimits(above: number, below: number): RunsLimits | undefined {
  if (above + below < RUNS_FROM_n || above === 0 || below === 0) return undefined
  const chances = runsChances(above, below)
  return { least: beyond(chances), most: chances.length - 1 - beyond([...chances].reverse()) }
}

/** The first place that is not in the tail. */
function beyond(chances: readonly number[]): number {
  let sum = 0
  for (const [place, chance] of chances.entries()) {
    sum += chance
    if (sum > TAIL) return place
  }
  return chances.length - 1
}

/** Logarithm of the number of ways to choose; -Infinity where there is none. */
function logChoose(n: number, k: number): number {
  if (k < 0 || k > n) return -Infinity
  let log = 0
  for (let i = 1; i <= Math.min(k, n - k); i++) log += Math.log((n - Math.min(k, n - k) + i) / i)
  return log
}
