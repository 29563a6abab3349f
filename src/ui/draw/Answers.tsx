import type { ChoiceView } from '../../app/view/drawViewTypes.ts'
import type { Source } from '../../core/protocol/entry.ts'
import { useTexts } from '../shared/useTexts.ts'
import { ChoiceButton, choiceId } from './ChoiceButton.tsx'

interface AnswersProps {
  readonly choices: readonly ChoiceView[]
  readonly isHeard: (choice: ChoiceView) => boolean
  readonly isHeld: boolean
  readonly onChoose: (choice: ChoiceView, source: Source) => void
}

/** What may be answered where the step asks something. The arrow keys go over them. */
export function Answers({ choices, isHeard, isHeld, onChoose }: AnswersProps) {
  const { draw } = useTexts().texts
  if (choices.length === 0) return null
  return (
    <div className="choices answerRow" role="group" aria-label={draw.answerGroup}>
      {choices.map((choice) => (
        <ChoiceButton
          key={choiceId(choice)}
          choice={choice}
          isHeard={isHeard(choice)}
          isHeld={isHeld}
          onChoose={onChoose}
        />
      ))}
    </div>
  )
}
