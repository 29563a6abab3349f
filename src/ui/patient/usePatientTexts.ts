import { useServices } from '../shared/appContext.tsx'

/** What the screens say of the patient's language. */
export const usePatientTexts = () => useServices().site.texts.language
