import type { BenchRow } from './benchBoard.ts'
import { BENCH_STEP_IDS, type BenchStepId } from './benchSteps.ts'

/** What waits at one step of the bench, for a board that is read from afar. It names nobody. */
export interface StepTotal {
  readonly step: BenchStepId
  readonly n: number
  /** Of which something can be done now. */
  readonly due: number
  /** Of which a time has passed. */
  readonly over: number
  /** When the next one is due, Unix ms; `Infinity` where nobody knows. */
  readonly next_ms: number
}

/** The steps at which anything waits, in the order of their first row: what is due first stands first. */
export function benchTotals(rows: readonly BenchRow[]): readonly StepTotal[] {
  const first = (id: BenchStepId): number => rows.findIndex(({ step }) => step === id)
  return BENCH_STEP_IDS.filter((id) => first(id) >= 0)
    .toSorted((a, b) => first(a) - first(b))
    .map((step) => {
      const of = rows.filter((row) => row.step === step)
      return {
        step,
        n: of.length,
        due: of.filter(({ isDue }) => isDue).length,
        over: of.filter(({ limits }) => limits.some(({ isOver }) => isOver)).length,
        next_ms: Math.min(...of.map(({ due_ms }) => due_ms)),
      }
    })
}
