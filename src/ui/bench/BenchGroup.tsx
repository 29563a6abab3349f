import { useCallback, useState } from 'react'
import type { BenchRow } from '../../core/bench/benchBoard.ts'
import type { BenchStepId } from '../../core/bench/benchSteps.ts'
import { BenchRowLine } from './BenchRowLine.tsx'
import { rowKey } from './rowKey.ts'
import { StepActs } from './StepActs.tsx'
import { useBenchTexts } from './useBenchTexts.ts'

interface BenchGroupProps {
  readonly step: BenchStepId
  readonly rows: readonly BenchRow[]
  readonly named: boolean
  /** A run of these is laid out beside them. */
  readonly hasRun: boolean
}

/** The specimens of one step, what to do with them, and its buttons for those that are ticked. */
export function BenchGroup({ step, rows, named, hasRun }: BenchGroupProps) {
  const { bench, fill } = useBenchTexts()
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set())
  const isChosen = (row: BenchRow): boolean => row.isDue !== left.has(rowKey(row))
  const toggle = useCallback((row: BenchRow): void => {
    setLeft((before) => {
      const next = new Set(before)
      if (!next.delete(rowKey(row))) next.add(rowKey(row))
      return next
    })
  }, [])
  const { title, about } = bench.steps[step]
  // What to do about it is said once, and not with each of them.
  const passed = rows.flatMap(({ limits }) => limits.filter(({ isOver }) => isOver))
  const over = [...new Set(passed.map(({ of }) => of))]
  return (
    <section className="benchGroup" aria-labelledby={`bench-${step}`}>
      <h2 id={`bench-${step}`}>{title}</h2>
      <p className="soft">{about}</p>
      {over.map((of) => (
        <p key={of} className="benchOver">
          {fill(bench.passedSo, { what: bench.overWhat[of] })}
        </p>
      ))}
      <ul className="bare">
        {rows.map((row) => (
          <BenchRowLine
            key={rowKey(row)}
            row={row}
            named={named}
            chosen={isChosen(row)}
            onChoose={toggle}
          />
        ))}
      </ul>
      <StepActs
        step={step}
        chosen={rows.filter(isChosen)}
        hasRun={hasRun}
        onDone={() => setLeft(new Set())}
      />
    </section>
  )
}
