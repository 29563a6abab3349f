import { useState } from 'react'
import type { BenchRow } from '../../core/bench/benchBoard.ts'
import { benchSummary } from '../../core/bench/benchSummary.ts'
import { BENCH_STEP_IDS } from '../../core/bench/benchSteps.ts'
import { useApp } from '../shared/appContext.tsx'
import { BetweenEars } from '../between/BetweenEars.tsx'
import { Frame } from '../shared/Frame.tsx'
import { Tick } from '../shared/Tick.tsx'
import { useToStart } from '../shared/useToStart.ts'
import { BenchGroup } from './BenchGroup.tsx'
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
  return (
    <Frame title={bench.title} back={useToStart()}>
      <p className="caution">{bench.caution}</p>
      <BetweenEars />
      {rows.length === 0 && practice.length === 0 ? (
        <p className="lead">{bench.empty}</p>
      ) : (
        <Tick label={bench.names} checked={named} onChange={setNamed} />
      )}
      {over > 0 && (
        <p className="warnBox" role="status">
          {fill(bench.passedOnes, { n: over })}
        </p>
      )}
      <Groups rows={rows} now_ms={now_ms} named={named} />
      <LastActs />
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
  readonly now_ms: number
  readonly named: boolean
}

/** The steps in the order of their first row: what is due first stands on top. */
function Groups({ rows, now_ms, named }: GroupsProps) {
  const steps = BENCH_STEP_IDS.filter((id) => rows.some(({ step }) => step === id))
  const first = (id: string): number => rows.findIndex(({ step }) => step === id)
  return (
    <>
      {[...steps]
        .sort((a, b) => first(a) - first(b))
        .map((step) => (
          <div key={step}>
            {step === 'spin' && <SpinPanel rows={rows} />}
            <BenchGroup
              step={step}
              rows={rows.filter((row) => row.step === step)}
              now_ms={now_ms}
              named={named}
            />
          </div>
        ))}
    </>
  )
}
