import type { MouseEvent } from 'react'
import type { Source } from '../../core/protocol/entry.ts'
import type { ChoiceView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'
import { isRestated } from './isRestated.ts'

/** What the choices of one place share: which was heard, whether presses wait, and where a press goes. */
export interface ChoiceHandling {
  readonly isHeard: (choice: ChoiceView) => boolean
  readonly isHeld: boolean
  readonly onChoose: (choice: ChoiceView, source: Source) => void
}

/** Makes a button of each choice of a place. */
export const choiceButtons = ({ isHeard, isHeld, onChoose }: ChoiceHandling) =>
  function button(choice: ChoiceView) {
    return (
      <ChoiceButton
        key={choiceId(choice)}
        choice={choice}
        isHeard={isHeard(choice)}
        isHeld={isHeld}
        onChoose={onChoose}
      />
    )
  }

interface ChoiceButtonProps {
  readonly choice: ChoiceView
  readonly size?: 'main' | 'plain' | 'safety'
  /** It was just heard: the words darken and bear a tick. */
  readonly isHeard?: boolean
  /** Presses wait at this moment. */
  readonly isHeld?: boolean
  /** The key of the choice belongs to something else for now. */
  readonly noKey?: boolean
  readonly onChoose: (choice: ChoiceView, source: Source) => void
}

/** One thing to do: the words to say, what they mean where that adds something, and the key to press. */
export function ChoiceButton(props: ChoiceButtonProps) {
  const { choice, size = 'plain', isHeard = false, isHeld = false, noKey = false } = props
  const { texts, fill } = useTexts()
  const { draw } = texts
  const keys: Readonly<Record<string, string>> = draw.keys
  const phrase = choice.phrases[0]
  // A click made by a key on a focused button has no pointer behind it.
  const choose = (event: MouseEvent): void =>
    props.onChoose(choice, event.detail === 0 ? 'keys' : 'touch')
  return (
    <button
      type="button"
      className={`choice ${size} ${choice.tone}${isHeard ? ' isHeard' : ''}`}
      data-place={choice.place}
      aria-disabled={isHeld || undefined}
      onClick={choose}
    >
      {phrase !== undefined && (
        <span className="phrase">
          {isHeard && <span className="tick">✓ </span>}
          {fill(draw.phrase, { phrase })}
        </span>
      )}
      {(phrase === undefined || !isRestated(choice.label, phrase)) && (
        <span className="label">{choice.label}</span>
      )}
      {choice.key !== undefined && !noKey && (
        <kbd>
          <span className="visuallyHidden">{fill(draw.key, { key: choice.key })}</span>
          <span aria-hidden="true">{keys[choice.key] ?? choice.key}</span>
        </kbd>
      )}
    </button>
  )
}

/** Stable across redraws and different for commands of one type. */
export function choiceId(choice: ChoiceView): string {
  return JSON.stringify(choice.command)
}
