import { useState } from 'react'
import { tubesByDraw } from '../../app/bench/tubesByDraw.ts'
import type { BenchRow } from '../../core/bench/benchBoard.ts'
import type { BenchStepId } from '../../core/bench/benchSteps.ts'
import type { ActDone } from '../../core/day/dayEvents.ts'
import { STORE_PLACES, type StorePlace } from '../../core/protocol/benchEvents.ts'
import { useActions } from '../shared/appContext.tsx'
import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { BenchKey } from './BenchKey.tsx'
import { BENCH_KEYS } from './useBenchKeys.ts'
import { useBenchTexts } from './useBenchTexts.ts'

interface StepActsProps {
  readonly step: BenchStepId
  readonly chosen: readonly BenchRow[]
  /** The key of a spin belongs to a run that is laid out. */
  readonly hasRun: boolean
  readonly onDone: () => void
}

/** Of what a button is, where it is not of all that is ticked; its id among others of one act, and its key. */
interface How {
  readonly rows?: readonly BenchRow[]
  readonly id?: string
  readonly key?: string
}

/** The buttons of a step, for the rows that are ticked. */
export function StepActs({ step, chosen, hasRun, onDone }: StepActsProps) {
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
  const button = (deed: ActDone, text: string, how: How = {}) => {
    const { rows = chosen, id = deed.type, key } = how
    return (
      <button
        key={id}
        type="button"
        className="button"
        disabled={rows.length === 0}
        aria-keyshortcuts={key}
        onClick={() => act(deed, rows)}
      >
        {text}
        {key !== undefined && <BenchKey name={key} />}
      </button>
    )
  }
  switch (step) {
    case 'spin':
    case 'clot': {
      const key = step === 'spin' && !hasRun ? { key: BENCH_KEYS.spinStarted } : {}
      return (
        <div className="benchActs">
          {button({ type: 'spinStarted' }, fill(bench.acts.spinStarted, { n }), key)}
        </div>
      )
    }
    case 'spinning':
      return (
        <div className="benchActs">
          {button({ type: 'spinEnded' }, fill(bench.acts.spinEnded, { n }), {
            key: BENCH_KEYS.spinEnded,
          })}
        </div>
      )
    case 'separate': {
      const count = Number(portions)
      const isCount = Number.isInteger(count) && count >= 1 && count <= 20
      return (
        <div className="benchActs">
          {button({ type: 'separated' }, fill(bench.acts.separated, { n }), {
            key: BENCH_KEYS.separated,
          })}
          <TextField
            label={bench.portions}
            inputMode="numeric"
            value={portions}
            onChange={setPortions}
          />
          {button({ type: 'aliquoted', portions: count }, fill(bench.acts.aliquoted, { n }), {
            rows: isCount ? chosen : [],
          })}
        </div>
      )
    }
    case 'store': {
      const advised = [...new Set(chosen.flatMap(({ store }) => store?.where ?? []))]
      return (
        <div className="benchActs">
          {advised.map((where, nth) => {
            const rows = chosen.filter(({ store }) => store?.where === where)
            const place = places[where] ?? where
            const text = fill(bench.acts.stored, { place, n: rows.length })
            const key = nth === 0 ? { key: BENCH_KEYS.stored } : {}
            return button({ type: 'stored', where }, text, { rows, id: where, ...key })
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
            { id: 'elsewhere' },
          )}
        </div>
      )
    }
    case 'bag':
    case 'courier':
      return (
        <div className="benchActs">
          <TextField label={bench.bag} hint={bench.bagHint} value={bag} onChange={setBag} />
          {button({ type: 'bagged', bag: bag.trim() }, fill(bench.acts.bagged, { n }), {
            rows: bag.trim() === '' ? [] : chosen,
            ...(step === 'bag' && { key: BENCH_KEYS.bagged }),
          })}
        </div>
      )
    default:
      return null
  }
}
