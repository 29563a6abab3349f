import { useEffect, useSyncExternalStore } from 'react'
import type { MicCheckView } from '../../app/voice/micCheckView.ts'
import { useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { Level } from '../shared/Level.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useToStart } from '../shared/useToStart.ts'
import './micCheck.css'

/** One minute to find out whether this person, this room and this microphone will do. */
export function MicCheckScreen() {
  const { micCheck: check } = useServices()
  const { micCheck } = useTexts().texts
  const view = useSyncExternalStore(check.subscribe, check.current)
  useEffect(() => () => check.stop(), [check])
  return (
    <Frame title={micCheck.title} back={useToStart()}>
      <p className="lead">{micCheck.about}</p>
      <div className="micCheck" aria-live="polite">
        <Phase view={view} />
      </div>
      <div className="micCheckButtons">
        {(view.phase === 'ready' || view.phase === 'done') && (
          <button type="button" className="button go" onClick={() => void check.start()}>
            {view.phase === 'ready' ? micCheck.start : micCheck.again}
          </button>
        )}
        {view.phase === 'asking' && (
          <button type="button" className="button" onClick={() => check.skip()}>
            {micCheck.skip}
          </button>
        )}
      </div>
    </Frame>
  )
}

function Phase({ view }: { readonly view: MicCheckView }) {
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
            {view.verdict.reasons.map((reason) => (
              <li key={reason}>{reason}</li>
            ))}
          </ul>
          <p className="soft">{micCheck.small}</p>
        </>
      )
  }
}
