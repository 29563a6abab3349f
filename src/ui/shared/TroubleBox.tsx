import { useActions, useApp } from './appContext.tsx'
import { useTexts } from './useTexts.ts'

/** Something that went wrong once, until it is understood. */
export function TroubleBox() {
  const trouble = useApp((s) => s.trouble)
  const actions = useActions()
  const { app } = useTexts().texts
  if (trouble === undefined) return null
  return (
    <div className="troubleBox noPrint" role="alert">
      <p>{trouble}</p>
      <button type="button" className="button" onClick={() => actions.dismissTrouble()}>
        {app.understood}
      </button>
    </div>
  )
}
