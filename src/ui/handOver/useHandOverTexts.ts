import type { HandOverTexts } from '../../app/site/handOverTexts.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts, type Fill } from '../shared/useTexts.ts'

/** The texts of handing over. */
export function useHandOverTexts(): { readonly texts: HandOverTexts; readonly fill: Fill } {
  return { texts: useServices().site.texts.handOver, fill: useTexts().fill }
}
