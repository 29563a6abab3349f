import { fillText, type Text, type TextValues } from '../../core/basics/fillText.ts'
import type { ScreenTexts } from '../../app/site/screenTexts.ts'
import { useServices } from './appContext.tsx'

/** Puts values into a text of the screens' language. */
export type Fill = (text: Text, values?: TextValues) => string

/** The texts of the screens, and `fill` for those with values in them. */
export function useTexts(): { readonly texts: ScreenTexts; readonly fill: Fill } {
  const { screens } = useServices().site.texts
  return { texts: screens, fill: (text, values) => fillText(text, values, screens.language) }
}
