import { dayMonthYear } from '../../core/time/format.ts'
import type { DrawOpened } from '../../core/protocol/events.ts'
import { useTexts } from './useTexts.ts'

/** Whose record this is, by the identifiers that tubes are labeled with. */
export function PatientLine({ opened }: { readonly opened: DrawOpened }) {
  const { texts, fill } = useTexts()
  const { fullName, birthDate, recordNumber } = opened.patient
  return (
    <p className="patientLine figures">
      {opened.invented && <span className="tag">{texts.app.invented}</span>}
      <strong>{fullName}</strong>
      <span>{fill(texts.app.born, { date: dayMonthYear(birthDate) })}</span>
      <span>{fill(texts.app.recordNumber, { number: recordNumber })}</span>
    </p>
  )
}
