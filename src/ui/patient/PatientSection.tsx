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
  /** What the step is about stands first. */
  readonly first?: 'before' | 'after'
  readonly onSend: (command: Command) => void
}

/** What the patient is told in the draw, in their language: shown to them, read aloud, or read out by whoever draws. */
export function PatientSection({ view, first = 'before', onSend }: PatientSectionProps) {
  const { leaflets, site } = useServices()
  const { namesHere, patient } = usePatientTexts()
  const language = view.language ?? screenLanguage(site)
  const values = { language: namesHere[language] }
  const lines = {
    before: explanationLines(leaflets[language], view),
    after: aftercareLines(leaflets[language], view),
  }
  const order = first === 'before' ? (['before', 'after'] as const) : (['after', 'before'] as const)
  return (
    <section className="forPatient">
      <h2>{patient.title}</h2>
      <PatientLanguage
        value={language}
        onChange={(chosen) => onSend({ type: 'choosePatientLanguage', language: chosen })}
      />
      {order.map((part) => (
        <ReadAloud
          key={part}
          title={fillText(patient[part], values)}
          lines={lines[part]}
          language={language}
        />
      ))}
    </section>
  )
}
