import { dayAndTime } from '../../core/time/format.ts'
import { useEffect, useState } from 'react'
import { OUTCOMES, type Outcome } from '../../core/protocol/events.ts'
import { RulerStrip } from '../pictures/RulerStrip.tsx'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { FileButton } from '../shared/FileButton.tsx'
import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { DrawName, MoreDraws, useFirst, type Draw, type DrawsProps } from './DrawList.tsx'
import { isFiltered, NO_FILTER, passes, type DrawFilter } from './drawFilter.ts'

const EARLIER_n = 20

/**
 * Closed draws of patients, newest first, with what came of each. Whoever sits before the screen next need not read who
 * was here: names and numbers are asked for.
 */
export function EarlierDraws({ draws }: DrawsProps) {
  const actions = useActions()
  const { home } = useTexts().texts
  const [named, setNamed] = useState(false)
  const [filter, setFilter] = useState(NO_FILTER)
  return (
    <section className="earlier" aria-labelledby="earlier">
      <h2 id="earlier">{home.earlier}</h2>
      {draws.length === 0 ? (
        <p className="soft">{home.noneEarlier}</p>
      ) : (
        <>
          <button
            type="button"
            className="button quiet"
            aria-pressed={named}
            onClick={() => setNamed(!named)}
          >
            {named ? home.hideNames : home.showNames}
          </button>
          {draws.length > 1 && <Filter filter={filter} onChange={setFilter} />}
          <Rows draws={draws} named={named} filter={filter} />
        </>
      )}
      <p className="bringIn">
        <FileButton
          label={home.bringIn}
          accept=".json,application/json"
          onFile={(file) => void actions.importLog(file)}
        />
      </p>
    </section>
  )
}

/** Closed rehearsals, apart from the draws of patients. */
export function EarlierPractice({ draws }: DrawsProps) {
  const { home } = useTexts().texts
  if (draws.length === 0) return null
  return (
    <section className="earlier" aria-labelledby="earlier-practice">
      <h2 id="earlier-practice">{home.earlierPractice}</h2>
      <Rows draws={draws} named filter={NO_FILTER} />
    </section>
  )
}

interface RowsProps extends DrawsProps {
  /** Names and record numbers are shown. */
  readonly named: boolean
  readonly filter: DrawFilter
}

function Rows({ draws, named, filter }: RowsProps) {
  const actions = useActions()
  const digests = useApp((s) => s.digests)
  const { home } = useTexts().texts
  const matching = isFiltered(filter)
    ? draws.filter((draw) => passes(draw, digests.get(draw.drawId), filter))
    : draws
  const { shown, more } = useFirst(matching, EARLIER_n)
  // To look for a number or an outcome every record must be read; else those in sight will do.
  const wanted = (isFiltered(filter) ? draws : shown).map(({ drawId }) => drawId).join(' ')
  useEffect(() => {
    if (wanted !== '') void actions.readDigests(wanted.split(' '))
  }, [actions, wanted])
  const isReading = isFiltered(filter) && draws.some(({ drawId }) => !digests.has(drawId))
  return (
    <>
      <p className="soft" role="status">
        {isReading ? home.stillReading : matching.length === 0 ? home.noneFit : ''}
      </p>
      <ul className="bare">
        {shown.map((draw) => (
          <Row key={draw.drawId} draw={draw} named={named} />
        ))}
      </ul>
      {more && <MoreDraws {...more} />}
    </>
  )
}

function Row({ draw, named }: { readonly draw: Draw; readonly named: boolean }) {
  const actions = useActions()
  const digest = useApp((s) => s.digests.get(draw.drawId))
  const { texts, fill } = useTexts()
  const { home, app } = texts
  const name = named ? draw.patientName : fill(home.nameHidden, { number: draw.drawId })
  return (
    <li>
      <div className="drawRow">
        <DrawName draw={draw} name={name} />
        {digest && (
          <>
            <span className="soft figures">
              {named && `${fill(app.recordNumber, { number: digest.recordNumber })} · `}
              {fill(home.tubes, { n: digest.tubes })}
            </span>
            <RulerStrip strip={digest.strip} size="row" />
          </>
        )}
      </div>
      <button
        type="button"
        className="button"
        aria-label={fill(home.openRecordOf, {
          name,
          when: dayAndTime(here(draw.opened_ms)),
        })}
        onClick={() => void actions.go({ name: 'chart', drawId: draw.drawId })}
      >
        {home.openRecord}
      </button>
    </li>
  )
}

interface FilterProps {
  readonly filter: DrawFilter
  readonly onChange: (filter: DrawFilter) => void
}

const ANY = 'any'

function Filter({ filter, onChange }: FilterProps) {
  const { outcomes } = useServices().site.texts.pictures.strip
  const { home } = useTexts().texts
  return (
    <div className="pair drawFilter">
      <TextField
        label={home.find}
        value={filter.typed}
        onChange={(typed) => onChange({ ...filter, typed })}
      />
      <SelectField<Outcome | typeof ANY>
        label={home.outcome}
        options={[ANY, ...OUTCOMES]}
        nameOf={(outcome) => (outcome === ANY ? home.anyOutcome : outcomes[outcome])}
        value={filter.outcome ?? ANY}
        onChange={(outcome) =>
          onChange(outcome === ANY ? { typed: filter.typed } : { ...filter, outcome })
        }
      />
    </div>
  )
}
