import type { MouseEvent } from 'react'
import type { Source } from '../../core/protocol/entry.ts'
import type { ChoiceView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'

interface ChoiceButtonProps {
  readonly choice: ChoiceView
  readonly size?: 'main' | 'plain' | 'safety'
  readonly onChoose: (choice: ChoiceView, source: Source) => void
}

/** One thing to do: its name, the words to say and the key to press. */
export function ChoiceButton({ choice, size = 'plain', onChoose }: ChoiceButtonProps) {
  const { texts, fill } = useTexts()
  const { draw } = texts
  const keys: Readonly<Record<string, string>> = draw.keys
  const phrase = choice.phrases[0]
  // A click made by a key on a focused button has no pointer behind it.
  const choose = (event: MouseEvent): void =>
    onChoose(choice, event.detail === 0 ? 'keys' : 'touch')
  return (
    <button type="button" className={`choice ${size} ${choice.tone}`} onClick={choose}>
      <span className="label">{choice.label}</span>
      {phrase !== undefined && <span className="phrase">{fill(draw.phrase, { phrase })}</span>}
      {choice.key !== undefined && (
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
