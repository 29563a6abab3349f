import type { HeardView, ListeningView } from '../../app/view/drawViewTypes.ts'

const STATE_WORDS = {
  off: 'Voice is off',
  loading: 'Getting ready to listen',
  listening: 'Listening',
  paused: 'Listening is paused',
  trouble: 'Cannot hear',
} as const

const BARS = 12

/** Whether it hears, how loud it hears, and what to do when it does not. Touch and keys work throughout. */
export function Listening({ listening }: { readonly listening: ListeningView }) {
  const { state, level, advice } = listening
  const lit = state.kind === 'listening' ? Math.round(Math.min(1, Math.max(0, level)) * BARS) : 0
  return (
    <div className={`listening ${state.kind}`}>
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
      <p role="status">
        <strong>
          {STATE_WORDS[state.kind]}
          {advice !== undefined && '.'}
        </strong>
        {advice !== undefined && <span className="advice"> {advice}</span>}
      </p>
    </div>
  )
}

const OUTCOME_WORDS = {
  accepted: 'Heard',
  refused: 'Heard, but not now',
  unclear: 'Not sure I heard',
} as const

/** The last words heard, large, with what came of them. */
export function HeardLine({ heard }: { readonly heard: HeardView | undefined }) {
  return (
    <p className={`heard ${heard?.outcome ?? 'none'}`} role="status">
      {heard && (
        <>
          <span className="outcome">{OUTCOME_WORDS[heard.outcome]}:</span> {heard.text}
        </>
      )}
    </p>
  )
}
