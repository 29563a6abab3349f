import { useActions } from './appContext.tsx'
import { Frame } from './Frame.tsx'

/** In place of a record that is not there to be read. */
export function NoRecord() {
  const actions = useActions()
  const back = { label: 'Back to the start', onBack: () => void actions.go({ name: 'home' }) }
  return (
    <Frame title="No record" back={back}>
      <p className="lead">The record of this draw is not at hand. Open it from the first screen.</p>
    </Frame>
  )
}
