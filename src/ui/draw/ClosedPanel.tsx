import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useActions } from '../shared/appContext.tsx'

interface ClosedPanelProps {
  readonly drawId: string
  readonly closed: NonNullable<DrawView['closed']>
}

/** The draw is closed: what it came to, and where its record is. */
export function ClosedPanel({ drawId, closed }: ClosedPanelProps) {
  const actions = useActions()
  return (
    <section className="closed" aria-label="The draw is closed">
      <p>{closed.text}</p>
      <div className="choices">
        <button
          type="button"
          className="choice plain go"
          onClick={() => void actions.go({ name: 'chart', drawId })}
        >
          <span className="label">Read the chart note</span>
        </button>
        <button
          type="button"
          className="choice plain"
          onClick={() => void actions.go({ name: 'labels', drawId, from: 'draw' })}
        >
          <span className="label">Labels</span>
        </button>
        <button
          type="button"
          className="choice plain"
          onClick={() => void actions.go({ name: 'home' })}
        >
          <span className="label">Back to the start</span>
        </button>
      </div>
    </section>
  )
}
