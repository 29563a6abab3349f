import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useActions } from '../shared/appContext.tsx'

/** Says that another page writes this draw, and offers to take it over: a deliberate act, never a side effect. */
export function ElsewhereBar({
  elsewhere,
}: {
  readonly elsewhere: NonNullable<DrawView['elsewhere']>
}) {
  const actions = useActions()
  return (
    <div className="troubleBox" role="alert">
      <p>{elsewhere.text}</p>
      <button type="button" className="button" onClick={() => void actions.takeOver()}>
        {elsewhere.takeOver}
      </button>
    </div>
  )
}
