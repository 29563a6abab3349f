import { memo } from 'react'
import type { BenchRow, Latest } from '../../core/bench/benchBoard.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { Tick } from '../shared/Tick.tsx'
import { rowKey } from './rowKey.ts'
import { useBenchTexts } from './useBenchTexts.ts'

interface BenchRowLineProps {
  readonly row: BenchRow
  readonly named: boolean
  readonly chosen: boolean
  readonly onChoose: (row: BenchRow) => void
}

/**
 * One specimen: when it is its turn in large, which it is, and until when. Of some hundred, a look at the clock draws
 * only those again that read otherwise.
 */
export const BenchRowLine = memo(function BenchRowLine(props: BenchRowLineProps) {
  const { row, named, chosen, onChoose } = props
  const { bench, places, fill } = useBenchTexts()
  const { site } = useServices()
  const { specimen, store, limits, step } = row
  const isUncharted = useApp((s) => s.bench.uncharted.includes(rowKey(row)))
  const { patient, tube, number, isOpen, isOfAnother } = specimen
  const who = named ? patient.fullName : initialsOf(patient.fullName)
  const never = store?.never.map((place) => places[place] ?? place) ?? []
  return (
    <li className="benchRow">
      <p className="benchTime figures">
        <DueTime row={row} />
      </p>
      <div className="benchWhat">
        <div className="benchTube">
          <Tick
            label={fill(bench.select, { number, tube: tube.name })}
            checked={chosen}
            onChange={() => onChoose(row)}
          />
          <span>{who}</span>
        </div>
        {isOfAnother && step !== 'held' && <p className="benchOver">{bench.steps.held.title}</p>}
        {isOpen && <p className="soft">{bench.open}</p>}
        {isUncharted && <p className="soft">{site.texts.clinic.notYetCharted}</p>}
        {limits.map((limit) => (
          <LimitLine key={`${limit.of} ${limit.test ?? ''}`} limit={limit} />
        ))}
        {step === 'clot' && row.clotsLonger && (
          <p className="soft">{fill(bench.clotsLonger, { min: site.bench.clotLonger_min })}</p>
        )}
        {(step === 'store' || step === 'bag') && store && (
          <p className="soft">
            {places[store.where]}
            {never.length > 0 && `; ${fill(bench.neverStore, { places: never.join(', ') })}`}
            {` (${store.source})`}
          </p>
        )}
      </div>
    </li>
  )
})

function DueTime({ row }: { readonly row: BenchRow }) {
  const { bench, fill } = useBenchTexts()
  const min = useApp((s) => Math.ceil(Math.max(0, row.due_ms - s.bench.now_ms) / 60_000))
  if (!Number.isFinite(row.due_ms)) return <>{bench.never}</>
  if (row.step === 'courier') return <>{bench.waits}</>
  if (min === 0) return <>{bench.now}</>
  return (
    <>
      {fill(bench.inTime, { min })} <span className="soft">{timeOfDay(here(row.due_ms))}</span>
    </>
  )
}

function LimitLine({ limit }: { readonly limit: Latest }) {
  const { bench, fill, testName } = useBenchTexts()
  const { of, test, at_ms, isOver } = limit
  const what = fill(bench.limits[of], { test: test === undefined ? '' : testName(test) })
  const at = Number.isFinite(at_ms) ? timeOfDay(here(at_ms)) : bench.never
  return (
    <p className={isOver ? 'benchOver' : ''}>
      {fill(isOver ? bench.passed : bench.until, { what, at })}
    </p>
  )
}

/** `A. B.` of a name as it is written. */
const initialsOf = (name: string): string =>
  name
    .split(/\s+/)
    .filter(Boolean)
    .map((part) => `${[...part][0] ?? ''}.`)
    .join(' ')
