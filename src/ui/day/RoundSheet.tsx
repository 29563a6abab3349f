import { useEffect, useState } from 'react'
import { createPortal } from 'react-dom'
import type { DayRow } from '../../app/view/dayViewTypes.ts'
import { defined } from '../../core/basics/defined.ts'
import { placeWords } from '../../core/day/placeWords.ts'
import { roundStop, sittingStop, type RoundStop } from '../../core/day/roundStops.ts'
import { dayAndTime, dayMonthYear, timeOfDay } from '../../core/time/format.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { useTexts } from '../shared/useTexts.ts'
import { TableHead } from '../shared/TableHead.tsx'
import '../plan/request.css'

const stopsOf = (rows: readonly DayRow[]): readonly RoundStop[] =>
  rows.flatMap((row): readonly RoundStop[] => {
    if (row.kind === 'orders') return [roundStop(row.group)].filter((stop) => stop !== undefined)
    const { sitting } = row
    const first = defined({ ...sitting, due_ms: sitting.place.due_ms })
    return [first, ...sitting.later.map((later) => ({ ...sitting, ...later }))].flatMap(
      (each) => sittingStop({ ...each, key: `${sitting.series} ${each.key}` }) ?? [],
    )
  })

/** A button that prints where to go: only where there is somewhere to go. */
export function RoundSheet({ rows }: { readonly rows: readonly DayRow[] }) {
  const { page, site } = useServices()
  // It is there until it is printed, which some browsers do only after the call; then it is gone, so that it never
  // stands in the way of another paper of this screen.
  const [printed, setPrinted] = useState({ n: 0 })
  useEffect(() => {
    if (printed.n === 0) return undefined
    const gone = (): void => setPrinted({ n: 0 })
    window.addEventListener('afterprint', gone)
    page.print()
    return () => window.removeEventListener('afterprint', gone)
  }, [printed, page])
  const stops = stopsOf(rows)
  if (stops.length === 0) return null
  return (
    <>
      <button
        type="button"
        className="button quiet"
        onClick={() => setPrinted(({ n }) => ({ n: n + 1 }))}
      >
        {site.texts.day.round.print}
      </button>
      {printed.n > 0 && <RoundPaper stops={stops} />}
    </>
  )
}

/** Wards and homes in the order of the list, each with two identifiers of who is to be drawn there. */
function RoundPaper({ stops }: { readonly stops: readonly RoundStop[] }) {
  const { paper } = useApp((s) => s.settings)
  const now_ms = useApp((s) => s.day.now_ms)
  const { site, testName } = useServices()
  const { day } = site.texts
  const { texts, fill } = useTexts()
  const { round: t } = day
  return createPortal(
    <article className={`requestForm roundPaper ${paper}`} aria-label={t.title}>
      <h2>
        {t.title}, {dayAndTime(here(now_ms))}
      </h2>
      <p>{t.about}</p>
      <table>
        <TableHead columns={Object.values(t.columns)} />
        <tbody>
          {stops.map(({ key, place, due, tests, orderNumbers, patient, point, ...stop }) => (
            <tr key={key}>
              <th scope="row">{placeWords(place, day.where)}</th>
              <td>
                {due && timeOfDay(here(due.at_ms))}{' '}
                {due?.tolerance_min !== undefined &&
                  fill(day.tolerance, { min: due.tolerance_min })}
              </td>
              <td>
                {patient.fullName} {stop.invented && `(${texts.app.invented})`}
              </td>
              <td>{dayMonthYear(patient.birthDate)}</td>
              <td>{patient.recordNumber}</td>
              <td>{orderNumbers.join(', ')}</td>
              <td>
                {[
                  stop.priority !== 'routine' && texts.order.priorities[stop.priority],
                  stop.fasting && day.fasting,
                  stop.status !== 'waiting' && day.status[stop.status],
                  point,
                  tests.map(testName).join(', '),
                ]
                  .filter(Boolean)
                  .join('; ')}
              </td>
              <td />
            </tr>
          ))}
        </tbody>
      </table>
    </article>,
    document.body,
  )
}
