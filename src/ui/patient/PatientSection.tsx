import { fillText } from '../../core/basics/fillText.ts'
import { aftercareLines, explanationLines, type PatientView } from '../../app/view/patientWords.ts'
import { screenLanguage } from '../../app/site/screenLanguage.ts'
import type { Command } from '../../core/protocol/commands.ts'
import { useServices } from '../shared/appContext.tsx'
import { PatientLanguage } from './PatientLanguage.tsx'
import { ReadAloud } from './ReadAloud.tsx'
import { usePatientTexts } from './usePatientTexts.ts'

interface PatientSectionProps {
  readonly view: PatientView
  readonly onSend: (command: Command) => void
}

/** What the patient is told in the draw, in their language: shown to them, read aloud, or read out by whoever draws. */
export function PatientSection({ view, onSend }: PatientSectionProps) {
  const { leaflets, site } = useServices()
  const { namesHere, patient } = usePatientTexts()
  const language = view.language ?? screenLanguage(site)
  const values = { language: namesHere[language] }
  return (
    <section className="write">
      <h2>{patient.title}</h2>
      <PatientLanguage
        value={language}
        onChange={(chosen) => onSend({ type: 'choosePatientLanguage', language: chosen })}
      />
      <ReadAloud
        title={fillText(patient.before, values)}
        lines={explanationLines(leaflets[language], view)}
        language={language}
      />
      <ReadAloud
        title={fillText(patient.after, values)}
        lines={aftercareLines(leaflets[language], view)}
        language={language}
      />
    </section>
  )
}
