import { useId, useState } from 'react'
import { readableList } from '../../app/day/readableList.ts'
import type { DayRow } from '../../app/view/dayViewTypes.ts'
import { DrawnTwice } from '../clinic/DrawnTwice.tsx'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { offsetHere } from '../shared/here.ts'
import { useTexts } from '../shared/useTexts.ts'
import { AddOrders } from './AddOrders.tsx'
import { GroupRow } from './GroupRow.tsx'
import { RoundSheet } from './RoundSheet.tsx'
import { SittingRow } from './SittingRow.tsx'
import { SuppliesPart } from './SuppliesPart.tsx'
import { useChairElsewhere } from './useChairElsewhere.ts'
import './day.css'

/** So many are shown at first, and so many come with each press: four hundred at once would hold every press. */
const FIRST_n = 30

interface DayListProps {
  /** Names are shown. */
  readonly named: boolean
  readonly onNamed: (named: boolean) => void
}

/** The day's list: who is next, what is to draw, what is done, and the ways to add to it. */
export function DayList({ named, onNamed }: DayListProps) {
  const { rows, done } = useApp((s) => s.day)
  const actions = useActions()
  const { day } = useServices().site.texts
  const { fill } = useTexts()
  const heading = useId()
  const [next] = rows
  return (
    <section className="dayList" aria-labelledby={heading}>
      <h2 id={heading}>{day.title}</h2>
      {rows.length + done.length > 0 && (
        <>
          <p className="soft">{day.about}</p>
          <p role="status">
            {readableList({ rows }, { texts: day, offsetAt: offsetHere, names: false }).join(' ')}
          </p>
          <div className="rowOfButtons">
            {next && (
              <button type="button" className="button" onClick={() => void actions.day.callNext()}>
                {day.callNext}
              </button>
            )}
            <button
              type="button"
              className="button quiet"
              aria-pressed={!named}
              onClick={() => onNamed(!named)}
            >
              {named ? day.hideNames : day.showNames}
            </button>
            <RoundSheet rows={rows} />
          </div>
        </>
      )}
      <DrawnTwice />
      <Rows rows={rows} named={named} />
      {rows.length > 0 && <SuppliesPart />}
      <AddOrders />
      {done.length > 0 && (
        <details>
          <summary>
            {day.done} ({done.length})
          </summary>
          <Rows
            rows={done.map((group) => ({ kind: 'orders', place: group.place, group }))}
            named={named}
            isDone
          />
        </details>
      )}
      {rows.length + done.length === 0 && <p className="soft">{fill(day.none)}</p>}
    </section>
  )
}

interface RowsProps {
  readonly rows: readonly DayRow[]
  readonly named: boolean
  readonly isDone?: boolean
}

function Rows({ rows, named, isDone = false }: RowsProps) {
  const { day } = useServices().site.texts
  const { fill } = useTexts()
  const [n, setN] = useState(FIRST_n)
  const elsewhere = useChairElsewhere()
  const left = rows.length - n
  // Whoever sits at another chair is nobody's next here.
  const first = rows.findIndex((row) => row.kind === 'sitting' || !elsewhere(row.group))
  return (
    <>
      <ol className="bare dayRows">
        {rows
          .slice(0, n)
          .map((row, index) =>
            row.kind === 'orders' ? (
              <GroupRow
                key={row.group.ids[0]}
                group={row.group}
                named={named}
                isFirst={index === first && !isDone}
                isDone={isDone}
              />
            ) : (
              <SittingRow
                key={`${row.sitting.series} ${row.sitting.key}`}
                sitting={row.sitting}
                named={named}
                isFirst={index === first}
              />
            ),
          )}
      </ol>
      {left > 0 && (
        <button type="button" className="button quiet" onClick={() => setN(n + FIRST_n)}>
          {fill(day.showMore, { n: left })}
        </button>
      )}
    </>
  )
}
