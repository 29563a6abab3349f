import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useActions } from '../shared/appContext.tsx'

/** The draw is closed: what it came to, and where its record is. */
export function ClosedPanel({ closed }: { readonly closed: NonNullable<DrawView['closed']> }) {
  const actions = useActions()
  return (
    <section className="closed" aria-label="The draw is closed">
      <p>{closed.text}</p>
      <div className="choices">
        <button type="button" className="choice plain go" onClick={() => actions.go('chart')}>
          <span className="label">Read the chart note</span>
        </button>
        <button type="button" className="choice plain" onClick={() => actions.go('labels')}>
          <span className="label">Labels</span>
        </button>
        <button type="button" className="choice plain" onClick={() => actions.go('home')}>
          <span className="label">Back to the start</span>
        </button>
      </div>
    </section>
  )
}
