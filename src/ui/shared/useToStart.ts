import { useActions } from './appContext.tsx'
import { useTexts } from './useTexts.ts'

/** The way back to the first screen, as a frame's back button. */
export function useToStart(): { readonly label: string; readonly onBack: () => void } {
  const actions = useActions()
  const { texts } = useTexts()
  return { label: texts.app.toStart, onBack: () => void actions.go({ name: 'home' }) }
}
