import type { BenchRow, Latest } from '../../core/bench/benchBoard.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { Tick } from '../shared/Tick.tsx'
import { useBenchTexts } from './useBenchTexts.ts'

interface BenchRowLineProps {
  readonly row: BenchRow
  readonly now_ms: number
  readonly named: boolean
  readonly chosen: boolean
  readonly onChoose: (chosen: boolean) => void
}

/** One specimen: when it is its turn in large, which it is, and until when. */
export function BenchRowLine({ row, now_ms, named, chosen, onChoose }: BenchRowLineProps) {
  const { bench, places, fill } = useBenchTexts()
  const { site } = useServices()
  const { specimen, store, limits, step } = row
  const { patient, tube, number, isOpen } = specimen
  const who = named ? patient.fullName : initialsOf(patient.fullName)
  const never = store?.never.map((place) => places[place] ?? place) ?? []
  return (
    <li className="benchRow">
      <p className="benchTime figures">
        <DueTime row={row} now_ms={now_ms} />
      </p>
      <div className="benchWhat">
        <div className="benchTube">
          <Tick
            label={fill(bench.select, { number, tube: tube.name })}
            checked={chosen}
            onChange={onChoose}
          />
          <span>{who}</span>
        </div>
        {isOpen && <p className="soft">{bench.open}</p>}
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
}

function DueTime({ row, now_ms }: { readonly row: BenchRow; readonly now_ms: number }) {
  const { bench, fill } = useBenchTexts()
  if (!Number.isFinite(row.due_ms)) return <>{bench.never}</>
  if (row.due_ms <= now_ms) return <>{bench.now}</>
  const min = Math.ceil((row.due_ms - now_ms) / 60_000)
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
      {isOver && <span> {bench.overWhat[of]}</span>}
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
