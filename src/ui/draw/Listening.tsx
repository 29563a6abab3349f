import type { HeardView, ListeningView } from '../../app/view/drawViewTypes.ts'
import { EarShape } from './EarsBar.tsx'
import { useTexts } from '../shared/useTexts.ts'

const BARS = 12

interface ListeningProps {
  readonly listening: ListeningView
  /** Nothing but what stops is heard unless the ears are held open. */
  readonly isHeldOnly?: boolean
}

/** Whether it hears, how loud it hears, and what to do when it does not. Touch and keys work throughout. */
export function Listening({ listening, isHeldOnly = false }: ListeningProps) {
  const { state, level, advice, isHeld = false } = listening
  const { texts, fill } = useTexts()
  const { held } = texts.draw
  const heldOnly = isHeldOnly && state.kind === 'listening' ? held.onlyHeld : undefined
  const says = isHeld ? held.open : (heldOnly ?? texts.draw.listening[state.kind])
  const lit = state.kind === 'listening' ? Math.round(Math.min(1, Math.max(0, level)) * BARS) : 0
  return (
    <div className={`listening ${state.kind}${isHeld ? ' isHeld' : ''}`}>
      <svg className="level" viewBox="0 0 96 28" aria-hidden="true">
        {Array.from({ length: BARS }, (_, i) => (
          <rect
            key={i}
            x={i * 8}
            y={20 - i * 1.6}
            width="5"
            height={8 + i * 1.6}
            className={i < lit ? 'lit' : 'unlit'}
          />
        ))}
      </svg>
      {isHeld && <EarShape isOpen />}
      <p role="status">
        <strong>
          {advice === undefined ? says : fill(texts.draw.listeningAdvised, { state: says })}
        </strong>
        {advice !== undefined && <span className="advice"> {advice}</span>}
      </p>
    </div>
  )
}

/** The last words heard, large, with what came of them. */
export function HeardLine({ heard }: { readonly heard: HeardView | undefined }) {
  const { draw } = useTexts().texts
  return (
    <p className={`heard ${heard?.outcome ?? 'none'}`} role="status">
      {heard && (
        <>
          <span className="outcome">{draw.heard[heard.outcome]}</span>{' '}
          <span className="words">
            {heard.outcome === 'accepted' && <span aria-hidden="true">✓ </span>}
            {heard.text}
          </span>
        </>
      )}
    </p>
  )
}
