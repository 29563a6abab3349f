import type { BenchRow } from './benchBoard.ts'

/** How much waits on the bench, for screens that show no more of it. It names nobody. */
export interface BenchSummary {
  /** Specimens of which something can be done now. */
  readonly due: number
  /** Specimens of which a time has passed. */
  readonly over: number
}

/** What is due among these rows. */
export function benchSummary(rows: readonly BenchRow[]): BenchSummary {
  return {
    due: rows.filter(({ isDue }) => isDue).length,
    over: rows.filter(({ limits }) => limits.some(({ isOver }) => isOver)).length,
  }
}
