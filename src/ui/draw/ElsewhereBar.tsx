import { useState } from 'react'
import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useActions } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

/** Says that another page writes this draw, and offers to take it over: a deliberate act, never a side effect. */
export function ElsewhereBar({
  elsewhere: { text, takeOver, ask },
}: {
  readonly elsewhere: NonNullable<DrawView['elsewhere']>
}) {
  const actions = useActions()
  const { app } = useTexts().texts
  const [isAsked, setAsked] = useState(false)
  if (isAsked && ask) {
    return (
      <div className="troubleBox" role="alert">
        <p>{ask.question}</p>
        <button
          type="button"
          className="button"
          onClick={() => {
            setAsked(false)
            void actions.takeOver()
          }}
        >
          {ask.yes}
        </button>
        <button type="button" className="button" onClick={() => setAsked(false)}>
          {ask.no}
        </button>
      </div>
    )
  }
  return (
    <div className="troubleBox" role="alert">
      <p>{text}</p>
      <button
        type="button"
        className="button"
        onClick={() => (ask ? setAsked(true) : void actions.takeOver())}
      >
        {takeOver}
      </button>
      <button type="button" className="button" onClick={() => void actions.go({ name: 'home' })}>
        {app.backTo.start}
      </button>
    </div>
  )
}
