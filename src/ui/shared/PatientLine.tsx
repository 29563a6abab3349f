import { dayMonthYear } from '../../core/time/format.ts'
import type { DrawOpened } from '../../core/protocol/events.ts'

/** Whose record this is, by the identifiers that tubes are labeled with. */
export function PatientLine({ opened }: { readonly opened: DrawOpened }) {
  const { fullName, birthDate, recordNumber } = opened.patient
  return (
    <p className="patientLine figures">
      {opened.invented && <span className="tag">Invented</span>}
      <strong>{fullName}</strong>
      <span>born {dayMonthYear(birthDate)}</span>
      <span>record number {recordNumber}</span>
    </p>
  )
}
