import { useActions } from './appContext.tsx'
import type { Back } from './ScreenHeader.tsx'

/** The way back to the first screen, for a frame. */
export function useToStart(): Back {
  const actions = useActions()
  return { to: 'start', onBack: () => void actions.go({ name: 'home' }) }
}
