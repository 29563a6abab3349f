import { LANGUAGES, type Language } from '../../core/basics/language.ts'
import { SelectField } from '../shared/SelectField.tsx'
import { usePatientTexts } from './usePatientTexts.ts'

interface PatientLanguageProps {
  readonly value: Language
  readonly onChange: (language: Language) => void
}

/** In which language the patient is told and given things; it need not be that of the screens. */
export function PatientLanguage({ value, onChange }: PatientLanguageProps) {
  const { names, patient } = usePatientTexts()
  return (
    <SelectField
      label={patient.label}
      hint={patient.about}
      options={LANGUAGES}
      nameOf={(language) => names[language]}
      value={value}
      onChange={onChange}
    />
  )
}
