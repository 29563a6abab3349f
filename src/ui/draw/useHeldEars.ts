import { useEffect } from 'react'
import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { listenToHold } from '../shared/listenToHold.ts'

export interface HeldEarsShown {
  /** The bar stands on the screen: it is wanted, or nothing else could hold the ears open where that is required. */
  readonly hasBar: boolean
  readonly isRequired: boolean
}

/** Held listening on the screen of a draw: its key, and whether it has a bar. */
export function useHeldEars({ closed, elsewhere, listening }: DrawView): HeldEarsShown {
  const { heldKey, heldBar, heldRequired } = useApp((s) => s.settings)
  const actions = useActions()
  const isOver = closed !== undefined || elsewhere !== undefined
  const canHear = !isOver && listening.state.kind !== 'off'
  useEffect(
    () => (canHear ? listenToHold(document, heldKey, (move) => actions.holdEars(move)) : undefined),
    [canHear, heldKey, actions],
  )
  return {
    hasBar: canHear && (heldBar || (heldRequired && heldKey === '')),
    isRequired: canHear && heldRequired,
  }
}
