import type { Patient } from '../../core/order/order.ts'
import { dayMonthYear } from '../../core/time/format.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface WhoLineProps {
  readonly patient: Patient
  readonly invented: boolean
  readonly named: boolean
}

/** Who it is: hidden from whoever sits before the screen, where that is wanted. */
export function WhoLine({ patient, invented, named }: WhoLineProps) {
  const { day } = useServices().site.texts
  const { texts, fill } = useTexts()
  const number = fill(texts.app.recordNumber, { number: patient.recordNumber })
  return (
    <p className="dayWho">
      <strong>{named ? patient.fullName : day.hidden}</strong>{' '}
      {invented && <span className="tag">{texts.app.invented}</span>}{' '}
      {named && (
        <span className="soft figures">
          {dayMonthYear(patient.birthDate)} · {number}
        </span>
      )}
    </p>
  )
}
