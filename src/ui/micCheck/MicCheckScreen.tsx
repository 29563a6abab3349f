import { useEffect, useSyncExternalStore } from 'react'
import type { MicCheckView } from '../../app/voice/micCheckView.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import './micCheck.css'

/** One minute to find out whether this person, this room and this microphone will do. */
export function MicCheckScreen() {
  const { micCheck: check } = useServices()
  const actions = useActions()
  const view = useSyncExternalStore(check.subscribe, check.current)
  useEffect(() => () => check.stop(), [check])
  return (
    <Frame
      title="Microphone check"
      back={{ label: 'Back to the start', onBack: () => void actions.go({ name: 'home' }) }}
    >
      <p className="lead">
        Stand where you will stand during the draw and say six phrases. Nothing is recorded, stored
        or sent.
      </p>
      <div className="micCheck" aria-live="polite">
        <Phase view={view} />
      </div>
      <div className="micCheckButtons">
        {(view.phase === 'ready' || view.phase === 'done') && (
          <button type="button" className="button go" onClick={() => void check.start()}>
            {view.phase === 'ready' ? 'Start the check' : 'Check again'}
          </button>
        )}
        {view.phase === 'asking' && (
          <button type="button" className="button" onClick={() => check.skip()}>
            Not heard, go on
          </button>
        )}
      </div>
    </Frame>
  )
}

const VERDICTS = {
  good: 'This will do.',
  fair: 'This will do, with care.',
  poor: 'Do not rely on voice here. Use touch and keys.',
} as const

function Phase({ view }: { readonly view: MicCheckView }) {
  switch (view.phase) {
    case 'ready':
      return null
    case 'opening':
      return <p>Getting ready to listen.</p>
    case 'room':
      return (
        <>
          <p className="ask">Say nothing for three seconds.</p>
          <Level level={view.level} />
        </>
      )
    case 'asking':
      return (
        <>
          <p className="soft">
            Phrase {view.number} of {view.of}. Say:
          </p>
          <p className="ask">“{view.phrase}”</p>
          <Level level={view.level} />
          <p className="soft">{view.transcript === undefined ? '' : `Heard: ${view.transcript}`}</p>
        </>
      )
    case 'done':
      return (
        <>
          <p className="ask">{VERDICTS[view.verdict.verdict]}</p>
          <p>
            {view.right} of {view.asked} phrases were heard right.
          </p>
          <ul>
            {view.verdict.reasons.map((reason) => (
              <li key={reason}>{reason}</li>
            ))}
          </ul>
          <p className="soft">
            Six phrases are a small sample. Watch the screen for what was heard, and keep touch or
            keys within reach.
          </p>
        </>
      )
  }
}

function Level({ level }: { readonly level: number }) {
  return <meter className="micLevel" aria-label="Input level" min={0} max={1} value={level} />
}
