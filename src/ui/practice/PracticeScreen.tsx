import { useActions } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import type { ScenarioRow } from '../shared/services.ts'
import './practice.css'

interface PracticeScreenProps {
  readonly scenarios: readonly ScenarioRow[]
  readonly onStart: (id: string) => void
}

/** Draws to rehearse on a made-up patient. */
export function PracticeScreen({ scenarios, onStart }: PracticeScreenProps) {
  const actions = useActions()
  return (
    <Frame title="Practice" back={{ label: 'Back to the start', onBack: () => actions.go('home') }}>
      <p className="lead">
        Rehearse with a made-up patient and no needle. The screens, clocks and words are those of a
        real draw, and the record says that it was practice.
      </p>
      <ul className="bare scenarios">
        {scenarios.map((scenario) => (
          <li key={scenario.id}>
            <div>
              <h2>{scenario.title}</h2>
              <p className="soft">{scenario.about}</p>
            </div>
            <button
              type="button"
              className="button"
              aria-label={`Start: ${scenario.title}`}
              onClick={() => onStart(scenario.id)}
            >
              Start
            </button>
          </li>
        ))}
      </ul>
    </Frame>
  )
}
