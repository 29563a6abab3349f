import { useEffect, useSyncExternalStore } from 'react'
import type { MicCheckView } from '../../app/voice/micCheckView.ts'
import { whoDraws as stateOf } from '../../app/site/whoDraws.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { OwnVoice } from '../ownVoice/OwnVoice.tsx'
import { Level } from '../shared/Level.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useToStart } from '../shared/useToStart.ts'
import { WhoDraws } from '../whoDraws/WhoDraws.tsx'
import './micCheck.css'

/** One minute to find out whether this person, this room and this microphone will do. */
export function MicCheckScreen() {
  const { micCheck: check, now_ms } = useServices()
  const { micCheck, ownVoice } = useTexts().texts
  const isKnown =
    stateOf(
      useApp((s) => s.settings),
      now_ms(),
    ) === 'said'
  const view = useSyncExternalStore(check.subscribe, check.current)
  useEffect(() => () => check.stop(), [check])
  const isIdle = view.phase === 'ready' || view.phase === 'done'
  return (
    <Frame title={micCheck.title} back={useToStart()}>
      <p className="lead">{micCheck.about}</p>
      <div className={view.phase === 'ready' ? 'micCheck isReady' : 'micCheck'} aria-live="polite">
        <Phase view={view} isKnown={isKnown} />
      </div>
      <div className="micCheckButtons">
        {isIdle && (
          <button type="button" className="button go" onClick={() => void check.start('check')}>
            {view.phase === 'ready' ? micCheck.start : micCheck.again}
          </button>
        )}
        {isIdle && isKnown && (
          <button type="button" className="button" onClick={() => void check.start('learn')}>
            {micCheck.learn}
          </button>
        )}
        {view.phase === 'asking' && (
          <button type="button" className="button" onClick={() => check.skip()}>
            {micCheck.skip}
          </button>
        )}
      </div>
      {isIdle && (
        <>
          {isKnown && <p className="soft learnAbout">{micCheck.learnAbout}</p>}
          <WhoDraws />
          <section className="ownVoicePart" aria-labelledby="own-voice">
            <h2 id="own-voice">{ownVoice.title}</h2>
            <p className="soft">{ownVoice.about}</p>
            <OwnVoice />
          </section>
        </>
      )}
    </Frame>
  )
}

interface PhaseProps {
  readonly view: MicCheckView
  /** Somebody of this shift has said who draws. */
  readonly isKnown: boolean
}

function Phase({ view, isKnown }: PhaseProps) {
  const { texts, fill } = useTexts()
  const { micCheck } = texts
  switch (view.phase) {
    case 'ready':
      return null
    case 'opening':
      return <p>{micCheck.opening}</p>
    case 'room':
      return (
        <>
          <p className="micSay">{micCheck.room}</p>
          <Level name={micCheck.level} level={view.level} />
        </>
      )
    case 'asking':
      return (
        <>
          <p className="soft">{fill(micCheck.asking, { number: view.number, of: view.of })}</p>
          <p className="micSay">{fill(micCheck.phrase, { phrase: view.phrase })}</p>
          <Level name={micCheck.level} level={view.level} />
          <p className="soft">
            {view.transcript !== undefined && fill(micCheck.heard, { transcript: view.transcript })}
          </p>
        </>
      )
    case 'done':
      return (
        <>
          <p className="micSay">{micCheck.verdicts[view.verdict.verdict]}</p>
          <p>{fill(micCheck.right, { right: view.right, asked: view.asked })}</p>
          <ul>
            {view.verdict.reasons.map((reason, i) => (
              <li key={i}>{reason}</li>
            ))}
          </ul>
          {view.kind === 'check' && <p className="soft">{micCheck.small}</p>}
          {view.kind === 'learn' && <p className="soft">{micCheck.learned}</p>}
          {!isKnown && <p className="soft">{micCheck.notLearned}</p>}
        </>
      )
  }
}
