import { benchSummary } from '../../core/bench/benchSummary.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { useBenchTexts } from './useBenchTexts.ts'

/** What is due on the bench, for the first screen. It names nobody. */
export function BenchDueLine() {
  const rows = useApp((s) => s.bench.rows)
  const actions = useActions()
  const { bench, fill } = useBenchTexts()
  const { due, over } = benchSummary(rows)
  return (
    <button type="button" className="button" onClick={() => void actions.go({ name: 'bench' })}>
      <strong>{bench.onBench}</strong> {fill(bench.due, { n: due })}
      {over > 0 && ` ${fill(bench.passedOnes, { n: over })}`}
    </button>
  )
}
