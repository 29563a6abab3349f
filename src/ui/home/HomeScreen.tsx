import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { PinAdvice } from '../lock/PinAdvice.tsx'
import { BetweenEars } from '../between/BetweenEars.tsx'
import { DayList } from '../day/DayList.tsx'
import { BenchDueLine } from '../bench/BenchDueLine.tsx'
import { SeriesList } from '../series/SeriesList.tsx'
import { UnfinishedDraws } from './DrawList.tsx'
import { EarlierDraws, EarlierPractice } from './EarlierDraws.tsx'
import { WhoDraws } from '../whoDraws/WhoDraws.tsx'
import { KeptAtLine } from './KeptAtLine.tsx'
import { ImportQuestion } from './ImportQuestion.tsx'
import './home.css'

/** What else can be gone to from here; `${place}About` says what for. */
const PLACES = [
  'bench',
  'courier',
  'practice',
  'figures',
  'micCheck',
  'catalogue',
  'settings',
] as const

/** The first screen. Newest draws first; one that was left open stands on top. */
export function HomeScreen() {
  const actions = useActions()
  const draws = useApp((s) => s.draws)
  const hasList = useApp((s) => s.day.rows.length > 0)
  // With a list or a bench nobody needs to be told what this is; without, nobody is asked about listening.
  const hasDay = useApp((s) => s.day.rows.length + s.bench.rows.length > 0)
  const { home } = useTexts().texts
  const sorted = [...draws].sort((a, b) => b.opened_ms - a.opened_ms)
  const real = sorted.filter(({ invented }) => !invented)
  const practice = sorted.filter(({ invented }) => invented)
  return (
    <Frame title={home.title}>
      {!hasDay && (
        <>
          <h2 className="motto">{home.motto}</h2>
          <p className="lead">{home.about}</p>
        </>
      )}
      <WhoDraws />
      <KeptAtLine />
      <ImportQuestion />
      <UnfinishedDraws draws={real.filter((draw) => !draw.closed)} />
      <SeriesList />
      <BenchDueLine />
      <DayList />
      {hasDay && <BetweenEars />}
      <div className={hasList ? 'begin belowList' : 'begin'}>
        <button type="button" className="button go" onClick={() => actions.newDraw()}>
          <span className="big">{home.newDraw}</span>
          <span>{home.newDrawAbout}</span>
        </button>
        <button type="button" className="button" onClick={() => actions.startDemo()}>
          <span className="big">{home.demo}</span>
          <span>{home.demoAbout}</span>
        </button>
      </div>
      <UnfinishedDraws practice draws={practice.filter((draw) => !draw.closed)} />
      <p className="caution">{home.caution}</p>
      <PinAdvice />
      <div className="lower">
        <div>
          <EarlierDraws draws={real.filter((draw) => draw.closed)} />
          <EarlierPractice draws={practice.filter((draw) => draw.closed)} />
        </div>
        <Places />
      </div>
      <p className="stays soft">{home.stays}</p>
    </Frame>
  )
}

function Places() {
  const actions = useActions()
  const { scenarios } = useServices()
  const { home } = useTexts().texts
  const open = PLACES.filter((place) => place !== 'practice' || scenarios.length > 0)
  return (
    <nav aria-label={home.places}>
      <ul className="bare places">
        {open.map((place) => (
          <li key={place}>
            <button type="button" onClick={() => void actions.go({ name: place })}>
              <strong>{home[place]}</strong>
              <span className="soft">{home[`${place}About`]}</span>
            </button>
          </li>
        ))}
      </ul>
    </nav>
  )
}
