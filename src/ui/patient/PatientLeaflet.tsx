import { createPortal } from 'react-dom'
import { aftercareLines, patientView } from '../../app/view/patientWords.ts'
import { fillText } from '../../core/basics/fillText.ts'
import type { Language } from '../../core/basics/language.ts'
import type { CheckedLog } from '../../core/log/readStored.ts'
import { replay } from '../../core/protocol/evolve.ts'
import { calendarDate, dayMonthYear } from '../../core/time/format.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import './patient.css'

interface PatientLeafletProps {
  readonly record: CheckedLog
  readonly language: Language
}

/**
 * One sheet for the patient to take home. It names no test and no record number, so that one which is left behind tells
 * little; whom to call is left for the site to write.
 */
export function PatientLeaflet({ record, language }: PatientLeafletProps) {
  const leaflet = useServices().leaflets[language]
  const paper = useApp((s) => s.settings.paper)
  const { app } = useTexts().texts
  const state = replay(record.entries)
  const { opened, openedAt } = state
  const day = dayMonthYear(calendarDate(openedAt), language)
  return createPortal(
    <article className={`leaflet ${paper}`} lang={language} aria-label={leaflet.title}>
      <h2>{leaflet.title}</h2>
      {opened.invented && <p>{app.invented}</p>}
      <p>
        {opened.patient.fullName}
        {opened.site !== '' && `, ${opened.site}`}
      </p>
      <p>{fillText(leaflet.of, { day })}</p>
      <ul>
        {aftercareLines(leaflet, patientView(state)).map((line, i) => (
          <li key={i}>{line}</li>
        ))}
      </ul>
      <section className="getHelp">
        <h3>{leaflet.callTitle}</h3>
        <ul>
          {leaflet.call.map((line, i) => (
            <li key={i}>{line}</li>
          ))}
        </ul>
        <p className="whom">{leaflet.whom}</p>
      </section>
      <p>{leaflet.results}</p>
      {language !== 'en' && <p className="small">{leaflet.translated}</p>}
    </article>,
    document.body,
  )
}
