import type { ClinicTexts } from '../../app/site/clinicTexts.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts, type Fill } from '../shared/useTexts.ts'

/** The texts of the clinic. */
export function useClinicTexts(): { readonly clinic: ClinicTexts; readonly fill: Fill } {
  return { clinic: useServices().site.texts.clinic, fill: useTexts().fill }
}
