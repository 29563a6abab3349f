import type { Language } from '../../core/basics/language.ts'
import { PatientLanguage } from './PatientLanguage.tsx'
import { usePatientTexts } from './usePatientTexts.ts'

interface LeafletToolsProps {
  readonly language: Language
  readonly onLanguage: (language: Language) => void
  readonly onPrint: () => void
}

/** The sheet that the patient takes home, in their language. */
export function LeafletTools({ language, onLanguage, onPrint }: LeafletToolsProps) {
  const { patient } = usePatientTexts()
  return (
    <section className="leafletTools noPrint" aria-label={patient.title}>
      <PatientLanguage value={language} onChange={onLanguage} />
      <button type="button" className="button" onClick={onPrint}>
        {patient.print}
      </button>
    </section>
  )
}
