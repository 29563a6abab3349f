import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useActions } from '../shared/appContext.tsx'
import { LaterActs } from '../shared/LaterActs.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface ClosedPanelProps {
  readonly drawId: string
  readonly closed: NonNullable<DrawView['closed']>
}

/** The draw is closed: what it came to, and where its record is. */
export function ClosedPanel({ drawId, closed }: ClosedPanelProps) {
  const actions = useActions()
  const { texts } = useTexts()
  return (
    <section className="closed" aria-label={texts.draw.closed}>
      <p>{closed.text}</p>
      <LaterActs drawId={drawId} />
      <div className="choices">
        <button
          type="button"
          className="choice plain go"
          onClick={() => void actions.go({ name: 'chart', drawId })}
        >
          <span className="label">{texts.draw.readNote}</span>
        </button>
        <button
          type="button"
          className="choice plain"
          onClick={() => void actions.go({ name: 'labels', drawId, from: 'draw' })}
        >
          <span className="label">{texts.draw.labels}</span>
        </button>
        <button
          type="button"
          className="choice plain"
          onClick={() => void actions.go({ name: 'home' })}
        >
          <span className="label">{texts.app.backTo.start}</span>
        </button>
      </div>
    </section>
  )
}
