import { useState } from 'react'
import type { BenchRow } from '../../core/bench/benchBoard.ts'
import { benchSummary } from '../../core/bench/benchSummary.ts'
import { benchTotals } from '../../core/bench/benchTotals.ts'
import { spinRuns } from '../../core/bench/spinRuns.ts'
import { rotorOf } from '../../app/bench/rotorHere.ts'
import { useApp } from '../shared/appContext.tsx'
import { BetweenEars } from '../between/BetweenEars.tsx'
import { Frame } from '../shared/Frame.tsx'
import { Tick } from '../shared/Tick.tsx'
import { useToStart } from '../shared/useToStart.ts'
import { BenchGroup } from './BenchGroup.tsx'
import { BenchTotals } from './BenchTotals.tsx'
import { BENCH_KEYS, useBenchKeys } from './useBenchKeys.ts'
import { LastActs } from './LastActs.tsx'
import { SpinPanel } from './SpinPanel.tsx'
import { useBenchTexts } from './useBenchTexts.ts'
import './bench.css'

/** Every specimen that is still here, whose turn it is, and until when. */
export function BenchScreen() {
  const { rows, practice, now_ms } = useApp((s) => s.bench)
  const { bench, fill } = useBenchTexts()
  const { over } = benchSummary(rows)
  const [named, setNamed] = useState(false)
  useBenchKeys(rows)
  return (
    <Frame title={bench.title} back={useToStart()}>
      <p className="caution">{bench.caution}</p>
      {over > 0 && (
        <p className="warnBox" role="status">
          {fill(bench.passedOnes, { n: over })}
        </p>
      )}
      <div className="benchBoard">
        <BenchTotals rows={rows} now_ms={now_ms} />
      </div>
      <BetweenEars />
      {rows.length === 0 && practice.length === 0 ? (
        <p className="lead">{bench.empty}</p>
      ) : (
        <Tick label={bench.names} checked={named} onChange={setNamed} />
      )}
      <Groups rows={rows} named={named} />
      <LastActs />
      {rows.length > 0 && <p className="soft">{fill(bench.keys, BENCH_KEYS)}</p>}
      {practice.length > 0 && (
        <section className="benchPractice" aria-label={bench.practice}>
          <h2>{bench.practice}</h2>
          <ul className="bare">
            {practice.map(({ specimen, step }) => (
              <li key={`${specimen.drawId} ${specimen.tubeId}`}>
                <span className="figures">{specimen.number}</span> {specimen.tube.name}:{' '}
                {bench.steps[step].title}
              </li>
            ))}
          </ul>
        </section>
      )}
    </Frame>
  )
}

interface GroupsProps {
  readonly rows: readonly BenchRow[]
  readonly named: boolean
}

/** The steps in the order of their first row: what is due first stands on top. What may turn together stands beside. */
function Groups({ rows, named }: GroupsProps) {
  const settings = useApp((s) => s.settings)
  const runs = spinRuns(rows, rotorOf(settings))
  return benchTotals(rows).map(({ step }) => {
    const hasRun = step === 'spin' && runs.length > 0
    return (
      <div key={step} className={hasRun ? 'benchSpin' : undefined}>
        <BenchGroup
          step={step}
          rows={rows.filter((row) => row.step === step)}
          named={named}
          hasRun={hasRun}
        />
        {hasRun && <SpinPanel runs={runs} />}
      </div>
    )
  })
}
