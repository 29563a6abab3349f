import { useEffect, useState } from 'react'
import { createPortal } from 'react-dom'
import type { DayRow } from '../../app/view/dayViewTypes.ts'
import { roundStops, type RoundStop } from '../../core/day/roundStops.ts'
import { dayAndTime, dayMonthYear, timeOfDay } from '../../core/time/format.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { useTexts } from '../shared/useTexts.ts'
import { TableHead } from '../shared/TableHead.tsx'
import '../plan/request.css'

const stopsOf = (rows: readonly DayRow[]): readonly RoundStop[] =>
  roundStops(rows.flatMap((row) => (row.kind === 'orders' ? [row.group] : [])))

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
  const { offset_min } = here(now_ms)
  return createPortal(
    <article className={`requestForm roundPaper ${paper}`} aria-label={t.title}>
      <h2>
        {t.title}, {dayAndTime({ at_ms: now_ms, offset_min })}
      </h2>
      <p>{t.about}</p>
      <table>
        <TableHead columns={Object.values(t.columns)} />
        <tbody>
          {stops.map(({ group, place, due, tests, orderNumbers }) => (
            <tr key={group.ids[0]}>
              <th scope="row">
                {day.where[place.kind]} {place.text}
              </th>
              <td>
                {due && timeOfDay({ at_ms: due.at_ms, offset_min })}{' '}
                {due?.tolerance_min !== undefined &&
                  fill(day.tolerance, { min: due.tolerance_min })}
              </td>
              <td>
                {group.patient.fullName} {group.invented && `(${texts.app.invented})`}
              </td>
              <td>{dayMonthYear(group.patient.birthDate)}</td>
              <td>{group.patient.recordNumber}</td>
              <td>{orderNumbers.join(', ')}</td>
              <td>
                {[
                  group.priority !== 'routine' && texts.order.priorities[group.priority],
                  group.fasting && day.fasting,
                  group.status !== 'waiting' && day.status[group.status],
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
