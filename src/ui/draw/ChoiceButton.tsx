import type { MouseEvent } from 'react'
import type { Source } from '../../core/protocol/entry.ts'
import type { ChoiceView } from '../../app/view/drawViewTypes.ts'

interface ChoiceButtonProps {
  readonly choice: ChoiceView
  readonly size?: 'main' | 'plain' | 'safety'
  readonly onChoose: (choice: ChoiceView, source: Source) => void
}

const KEY_WORDS: Readonly<Record<string, string>> = { Space: 'space', Backspace: '⌫' }

/** One thing to do: its name, the words to say and the key to press. */
export function ChoiceButton({ choice, size = 'plain', onChoose }: ChoiceButtonProps) {
  const phrase = choice.phrases[0]
  // A click made by a key on a focused button has no pointer behind it.
  const choose = (event: MouseEvent): void =>
    onChoose(choice, event.detail === 0 ? 'keys' : 'touch')
  return (
    <button type="button" className={`choice ${size} ${choice.tone}`} onClick={choose}>
      <span className="label">{choice.label}</span>
      {phrase !== undefined && <span className="phrase">“{phrase}”</span>}
      {choice.key !== undefined && (
        <kbd>
          <span className="visuallyHidden">key {choice.key}</span>
          <span aria-hidden="true">{KEY_WORDS[choice.key] ?? choice.key}</span>
        </kbd>
      )}
    </button>
  )
}

/** Stable across redraws and different for commands of one type. */
export function choiceId(choice: ChoiceView): string {
  return JSON.stringify(choice.command)
}
