import { useId, type ReactNode } from 'react'
import { benchSummary } from '../../core/bench/benchSummary.ts'
import { BenchDueLine } from '../bench/BenchDueLine.tsx'
import { CourierDueLine, useForCourier } from '../courier/CourierDueLine.tsx'
import { DueSeries, useSeries } from '../series/SeriesList.tsx'
import { useApp } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { UnfinishedDraws, type Draw } from './DrawList.tsx'

interface DueNowProps {
  /** Draws of patients that were begun and not ended. */
  readonly unfinished: readonly Draw[]
  readonly named: boolean
  readonly onPrint: (id: string) => void
}

/** Everything that is to be done now, in one place: draws begun, timed samples, the bench, the courier. */
export function DueNow({ unfinished, named, onPrint }: DueNowProps) {
  const { home } = useTexts().texts
  const { due, over } = benchSummary(useApp((s) => s.bench.rows))
  const forCourier = useForCourier()
  const { now } = useSeries()
  const heading = useId()
  const lines: readonly ReactNode[] = [
    due + over > 0 && <BenchDueLine key="bench" />,
    forCourier > 0 && <CourierDueLine key="courier" n={forCourier} />,
  ].filter(Boolean)
  if (unfinished.length + now.length + lines.length === 0) return null
  return (
    <section className="dueNow" aria-labelledby={heading}>
      <h2 id={heading}>{home.due}</h2>
      <UnfinishedDraws draws={unfinished} named={named} />
      {lines.length > 0 && <div className="dueLines">{lines}</div>}
      <DueSeries named={named} onPrint={onPrint} />
    </section>
  )
}
