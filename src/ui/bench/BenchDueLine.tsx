import { benchSummary } from '../../core/bench/benchSummary.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { useBenchTexts } from './useBenchTexts.ts'

/** What is due on the bench, for the screens beside it; nothing where nothing is. */
export function BenchDueLine() {
  const rows = useApp((s) => s.bench.rows)
  const actions = useActions()
  const { bench, fill } = useBenchTexts()
  const { due, over } = benchSummary(rows)
  if (due + over === 0) return null
  return (
    <p className="benchDueLine">
      <button type="button" className="button" onClick={() => void actions.go({ name: 'bench' })}>
        <strong>{bench.onBench}</strong> {fill(bench.due, { n: due })}
        {over > 0 && ` ${fill(bench.passedOnes, { n: over })}`}
      </button>
    </p>
  )
}
