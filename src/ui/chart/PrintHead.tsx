import type { DrawOpened } from '../../core/protocol/events.ts'
import { dayMonthYear } from '../../core/time/format.ts'
import { useTexts } from '../shared/useTexts.ts'

/** Whose note this is, on every printed page; a page that was lost among others finds its record again. */
export function PrintHead({ opened }: { readonly opened: DrawOpened }) {
  const { texts, fill } = useTexts()
  const { app } = texts
  const { fullName, birthDate, recordNumber } = opened.patient
  return (
    <div className="printHead" aria-hidden="true">
      <p>
        <strong>{fullName}</strong>
        <span>{fill(app.born, { date: dayMonthYear(birthDate) })}</span>
        <span>{fill(app.recordNumber, { number: recordNumber })}</span>
        <span>{opened.drawId}</span>
        {opened.invented && <strong>{app.invented}</strong>}
      </p>
    </div>
  )
}
