import { useActions, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import './practice.css'

/** Draws to rehearse on a made-up patient. */
export function PracticeScreen() {
  const actions = useActions()
  const { scenarios } = useServices()
  return (
    <Frame
      title="Practice"
      back={{ label: 'Back to the start', onBack: () => void actions.go({ name: 'home' }) }}
    >
      <p className="lead">
        Rehearse with a made-up patient and no needle. The screens, clocks and words are those of a
        real draw, and the record says that it was practice.
      </p>
      <ul className="bare scenarios">
        {scenarios.map(({ id, scenario }) => (
          <li key={id}>
            <div>
              <h2>{scenario.title}</h2>
              <p className="soft">{scenario.about}</p>
            </div>
            <button
              type="button"
              className="button"
              aria-label={`Start: ${scenario.title}`}
              onClick={() => void actions.startPractice(id)}
            >
              Start
            </button>
          </li>
        ))}
      </ul>
    </Frame>
  )
}
