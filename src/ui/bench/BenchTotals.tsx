import { benchTotals, type StepTotal } from '../../core/bench/benchTotals.ts'
import type { BenchRow } from '../../core/bench/benchBoard.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { here } from '../shared/here.ts'
import { useBenchTexts } from './useBenchTexts.ts'
import './benchTotals.css'

interface BenchTotalsProps {
  readonly rows: readonly BenchRow[]
  readonly now_ms: number
}

/** The whole bench at a glance: each step with how many wait, since or until when, and what has passed its time. */
export function BenchTotals({ rows, now_ms }: BenchTotalsProps) {
  return (
    <ul className="bare benchTotals">
      {benchTotals(rows).map((total) => (
        <Total key={total.step} total={total} now_ms={now_ms} />
      ))}
    </ul>
  )
}

function Total({ total, now_ms }: { readonly total: StepTotal; readonly now_ms: number }) {
  const { bench, fill } = useBenchTexts()
  const { step, n, due, over, next_ms } = total
  const { title } = bench.steps[step]
  const isLater = due === 0 && Number.isFinite(next_ms) && next_ms > now_ms
  return (
    <li className={over > 0 ? 'benchTotal isOver' : due > 0 ? 'benchTotal isDue' : 'benchTotal'}>
      <span className="benchTotalStep">{title}</span>
      <strong className="benchTotalN figures">{n}</strong>
      <span className="benchTotalWhen figures">
        {due > 0 && bench.now}
        {isLater && (
          <>
            {fill(bench.inTime, { min: Math.ceil((next_ms - now_ms) / 60_000) })}{' '}
            <span className="soft">{timeOfDay(here(next_ms))}</span>
          </>
        )}
      </span>
      {over > 0 && <span className="benchTotalOver">{fill(bench.overN, { n: over })}</span>}
    </li>
  )
}
