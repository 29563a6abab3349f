import type { LockTexts } from '../../app/site/lockTexts.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { useServices } from '../shared/appContext.tsx'
import type { Fill } from '../shared/useTexts.ts'

/** The texts about who may look, and `fill` for those with values in them. */
export function useLockTexts(): { readonly texts: LockTexts; readonly fill: Fill } {
  const { lock } = useServices().site.texts
  return { texts: lock, fill: (text, values) => fillText(text, values, lock.language) }
}
