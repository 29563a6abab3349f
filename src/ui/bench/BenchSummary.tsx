import { useId } from 'react'
import { useActions, useApp } from '../shared/appContext.tsx'
import { BenchTotals } from './BenchTotals.tsx'
import { useBenchTexts } from './useBenchTexts.ts'

/** The bench for the first screen; nothing where nothing is on it. It names nobody. */
export function BenchSummary() {
  const { rows, now_ms } = useApp((s) => s.bench)
  const actions = useActions()
  const { bench } = useBenchTexts()
  const heading = useId()
  if (rows.length === 0) return null
  return (
    <section className="benchSummary" aria-labelledby={heading}>
      <h2 id={heading}>{bench.summary}</h2>
      <BenchTotals rows={rows} now_ms={now_ms} />
      <button type="button" className="button" onClick={() => void actions.go({ name: 'bench' })}>
        {bench.toBench}
      </button>
    </section>
  )
}
