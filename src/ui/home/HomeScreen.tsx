import { useState } from 'react'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { PinAdvice } from '../lock/PinAdvice.tsx'
import { BetweenEars } from '../between/BetweenEars.tsx'
import { DayList } from '../day/DayList.tsx'
import { BenchSummary } from '../bench/BenchSummary.tsx'
import { LaterSeries } from '../series/SeriesList.tsx'
import { useSeriesPaper } from '../series/useSeriesPaper.tsx'
import { UnfinishedDraws } from './DrawList.tsx'
import { EarlierDraws, EarlierPractice } from './EarlierDraws.tsx'
import { WhoDraws } from '../whoDraws/WhoDraws.tsx'
import { DueNow } from './DueNow.tsx'
import { ClinicLine } from '../clinic/ClinicLine.tsx'
import { ClinicMoved } from '../clinic/ClinicMoved.tsx'
import { SharedNews } from '../clinic/SharedNews.tsx'
import { NotInRecords } from '../clinic/NotInRecords.tsx'
import { OthersDraws } from '../clinic/OthersDraws.tsx'
import { OrdersTold } from '../handOver/OrdersTold.tsx'
import { KeptAtLine } from './KeptAtLine.tsx'
import { ImportQuestion } from './ImportQuestion.tsx'
import { StaysLine } from './StaysLine.tsx'
import { LanguageLine } from './LanguageLine.tsx'
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

/**
 * The first screen is the day: what is due now in one block, the list, the bench, and below them what is used seldom.
 * Where there is no list, a draw is begun on top.
 */
export function HomeScreen() {
  const draws = useApp((s) => s.draws)
  const hasList = useApp((s) => s.day.rows.length + s.day.done.length > 0)
  const onBench = useApp((s) => s.bench.rows.length)
  // With a list or a bench nobody needs to be told what this is; without, nobody is asked about listening.
  const hasDay = hasList || onBench > 0
  const { home } = useTexts().texts
  const [named, setNamed] = useState(true)
  const { print, paper } = useSeriesPaper()
  const sorted = [...draws].sort((a, b) => b.opened_ms - a.opened_ms)
  const real = sorted.filter(({ invented }) => !invented)
  const practice = sorted.filter(({ invented }) => invented)
  return (
    <Frame title={home.title}>
      {!hasDay && (
        <>
          <h2 className="motto">{home.motto}</h2>
          <p className="lead">{home.about}</p>
          <LanguageLine />
        </>
      )}
      <WhoDraws />
      <KeptAtLine />
      <ImportQuestion />
      <ClinicMoved />
      <NotInRecords />
      <DueNow unfinished={real.filter((draw) => !draw.closed)} named={named} onPrint={print} />
      <OthersDraws named={named} />
      <div role="status">
        <OrdersTold />
      </div>
      <Begin isBesideList={hasList} />
      <DayList named={named} onNamed={setNamed} />
      {hasDay && <BetweenEars />}
      <LaterSeries named={named} onPrint={print} />
      <BenchSummary />
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
      <ClinicLine />
      <SharedNews />
      <StaysLine />
      {paper}
    </Frame>
  )
}

/** How a draw is begun: in large where nothing else stands here, in one line above a list. */
function Begin({ isBesideList }: { readonly isBesideList: boolean }) {
  const actions = useActions()
  const { home } = useTexts().texts
  return (
    <div className={isBesideList ? 'begin besideList' : 'begin'}>
      <button
        type="button"
        className={isBesideList ? 'button' : 'button go'}
        onClick={() => actions.newDraw()}
      >
        <span className="big">{home.newDraw}</span>
        <span>{home.newDrawAbout}</span>
      </button>
      <button type="button" className="button" onClick={() => actions.startDemo()}>
        <span className="big">{home.demo}</span>
        <span>{home.demoAbout}</span>
      </button>
    </div>
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
