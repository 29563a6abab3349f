import { useActions, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useToStart } from '../shared/useToStart.ts'
import './practice.css'

/** Draws to rehearse on a made-up patient. */
export function PracticeScreen() {
  const actions = useActions()
  const { scenarios } = useServices()
  const { texts, fill } = useTexts()
  const { practice } = texts
  return (
    <Frame title={practice.title} back={useToStart()}>
      <p className="lead">{practice.about}</p>
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
              aria-label={fill(practice.startOf, { title: scenario.title })}
              onClick={() => void actions.startPractice(id)}
            >
              {practice.start}
            </button>
          </li>
        ))}
      </ul>
    </Frame>
  )
}
