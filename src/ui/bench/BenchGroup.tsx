import { useState } from 'react'
import { tubesByDraw } from '../../app/bench/tubesByDraw.ts'
import type { BenchRow } from '../../core/bench/benchBoard.ts'
import type { BenchStepId } from '../../core/bench/benchSteps.ts'
import type { ActDone } from '../../core/day/dayEvents.ts'
import { STORE_PLACES, type StorePlace } from '../../core/protocol/benchEvents.ts'
import { useActions } from '../shared/appContext.tsx'
import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { BenchRowLine } from './BenchRowLine.tsx'
import { rowKey } from './rowKey.ts'
import { useBenchTexts } from './useBenchTexts.ts'

interface BenchGroupProps {
  readonly step: BenchStepId
  readonly rows: readonly BenchRow[]
  readonly now_ms: number
  readonly named: boolean
}

/** The specimens of one step, what to do with them, and its buttons for those that are ticked. */
export function BenchGroup({ step, rows, now_ms, named }: BenchGroupProps) {
  const { bench } = useBenchTexts()
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set())
  const isChosen = (row: BenchRow): boolean => row.isDue !== left.has(rowKey(row))
  const toggle = (row: BenchRow): void => {
    const next = new Set(left)
    if (!next.delete(rowKey(row))) next.add(rowKey(row))
    setLeft(next)
  }
  const { title, about } = bench.steps[step]
  return (
    <section className="benchGroup" aria-labelledby={`bench-${step}`}>
      <h2 id={`bench-${step}`}>{title}</h2>
      <p className="soft">{about}</p>
      <ul className="bare">
        {rows.map((row) => (
          <BenchRowLine
            key={rowKey(row)}
            row={row}
            now_ms={now_ms}
            named={named}
            chosen={isChosen(row)}
            onChoose={() => toggle(row)}
          />
        ))}
      </ul>
      <StepActs step={step} chosen={rows.filter(isChosen)} onDone={() => setLeft(new Set())} />
    </section>
  )
}

interface StepActsProps {
  readonly step: BenchStepId
  readonly chosen: readonly BenchRow[]
  readonly onDone: () => void
}

function StepActs({ step, chosen, onDone }: StepActsProps) {
  const { bench, places, fill } = useBenchTexts()
  const actions = useActions()
  const [portions, setPortions] = useState('1')
  const [bag, setBag] = useState('')
  const [elsewhere, setElsewhere] = useState<StorePlace>('room')
  const n = chosen.length
  const act = (deed: ActDone, rows: readonly BenchRow[] = chosen): void => {
    onDone()
    void actions.bench.act(deed, tubesByDraw(rows))
  }
  const button = (deed: ActDone, text: string, rows = chosen, key: string = deed.type) => (
    <button
      key={key}
      type="button"
      className="button"
      disabled={rows.length === 0}
      onClick={() => act(deed, rows)}
    >
      {text}
    </button>
  )
  switch (step) {
    case 'spin':
    case 'clot':
      return (
        <div className="benchActs">
          {button({ type: 'spinStarted' }, fill(bench.acts.spinStarted, { n }))}
        </div>
      )
    case 'spinning':
      return (
        <div className="benchActs">
          {button({ type: 'spinEnded' }, fill(bench.acts.spinEnded, { n }))}
        </div>
      )
    case 'separate': {
      const count = Number(portions)
      const isCount = Number.isInteger(count) && count >= 1 && count <= 20
      return (
        <div className="benchActs">
          {button({ type: 'separated' }, fill(bench.acts.separated, { n }))}
          <TextField
            label={bench.portions}
            inputMode="numeric"
            value={portions}
            onChange={setPortions}
          />
          {button(
            { type: 'aliquoted', portions: count },
            fill(bench.acts.aliquoted, { n }),
            isCount ? chosen : [],
          )}
        </div>
      )
    }
    case 'store': {
      const advised = [...new Set(chosen.flatMap(({ store }) => store?.where ?? []))]
      return (
        <div className="benchActs">
          {advised.map((where) => {
            const rows = chosen.filter(({ store }) => store?.where === where)
            const place = places[where] ?? where
            return button(
              { type: 'stored', where },
              fill(bench.acts.stored, { place, n: rows.length }),
              rows,
              where,
            )
          })}
          <SelectField
            label={bench.place}
            options={STORE_PLACES}
            nameOf={(place) => places[place] ?? place}
            value={elsewhere}
            onChange={setElsewhere}
          />
          {button(
            { type: 'stored', where: elsewhere },
            fill(bench.acts.stored, { place: places[elsewhere] ?? '', n }),
            chosen,
            'elsewhere',
          )}
        </div>
      )
    }
    case 'bag':
    case 'courier':
      return (
        <div className="benchActs">
          <TextField label={bench.bag} hint={bench.bagHint} value={bag} onChange={setBag} />
          {button(
            { type: 'bagged', bag: bag.trim() },
            fill(bench.acts.bagged, { n }),
            bag.trim() === '' ? [] : chosen,
          )}
        </div>
      )
    default:
      return null
  }
}
