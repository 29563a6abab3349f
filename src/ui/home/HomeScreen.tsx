import type { PlainScreen } from '../../app/appApi.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { EarlierDraws, UnfinishedDraws } from './DrawList.tsx'
import './home.css'

const PLACES: readonly {
  readonly screen: PlainScreen
  readonly name: string
  readonly about: string
}[] = [
  { screen: 'practice', name: 'Practice', about: 'Rehearse a draw and what can go wrong in it' },
  { screen: 'micCheck', name: 'Microphone check', about: 'One minute: will this room do?' },
  { screen: 'catalogue', name: 'Catalog', about: 'Tests, tubes and limits of your site' },
  { screen: 'settings', name: 'Settings', about: 'Voice, sound, site, paper' },
]

/** The first screen. Newest draws first; one that was left open stands on top. */
export function HomeScreen() {
  const { scenarios } = useServices()
  const actions = useActions()
  const draws = useApp((s) => s.draws)
  const sorted = [...draws].sort((a, b) => b.opened_ms - a.opened_ms)
  return (
    <Frame title="Both hands on the draw.">
      <p className="lead">
        Stillhand turns an order into an exact tube plan and goes through the draw with you by
        voice, touch or keys. It keeps the clocks and writes the chart note from what really
        happened.
      </p>
      <UnfinishedDraws draws={sorted.filter((draw) => !draw.closed)} />
      <div className="begin">
        <button type="button" className="button go" onClick={() => actions.newDraw()}>
          <span className="big">New draw</span>
          <span>Start from an order</span>
        </button>
        <button type="button" className="button" onClick={() => actions.startDemo()}>
          <span className="big">Try the invented demo</span>
          <span>A made-up practice, patient and order</span>
        </button>
      </div>
      <p className="caution">
        It gives no diagnosis and no orders. Your local policy, the tube maker’s label and your
        licensed judgment come first.
      </p>
      <div className="lower">
        <EarlierDraws draws={sorted.filter((draw) => draw.closed)} />
        <nav aria-label="More">
          <ul className="bare places">
            {PLACES.filter(({ screen }) => screen !== 'practice' || scenarios.length > 0).map(
              ({ screen, name, about }) => (
                <li key={screen}>
                  <button type="button" onClick={() => void actions.go({ name: screen })}>
                    <strong>{name}</strong>
                    <span className="soft">{about}</span>
                  </button>
                </li>
              ),
            )}
          </ul>
        </nav>
      </div>
      <p className="stays soft">
        Everything stays on this device: patients, records and settings. No sound is stored or sent.
      </p>
    </Frame>
  )
}
