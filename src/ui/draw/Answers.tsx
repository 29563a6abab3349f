import type { ArmView, ChoiceView } from '../../app/view/drawViewTypes.ts'
import type { Source } from '../../core/protocol/entry.ts'
import { ArmPicture } from '../pictures/ArmPicture.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { ChoiceButton, choiceId } from './ChoiceButton.tsx'

interface AnswersProps {
  readonly choices: readonly ChoiceView[]
  /** The arms that the step is about: they are drawn, and chosen on the drawing. */
  readonly arms?: readonly ArmView[] | undefined
  readonly isHeard: (choice: ChoiceView) => boolean
  readonly isHeld: boolean
  readonly onChoose: (choice: ChoiceView, source: Source) => void
}

/** What may be answered where the step asks something. The arrow keys go over them. */
export function Answers({ choices, arms, isHeard, isHeld, onChoose }: AnswersProps) {
  const { draw } = useTexts().texts
  if (choices.length === 0 && !arms) return null
  const button = (choice: ChoiceView) => (
    <ChoiceButton
      key={choiceId(choice)}
      choice={choice}
      isHeard={isHeard(choice)}
      isHeld={isHeld}
      onChoose={onChoose}
    />
  )
  if (arms) return <ArmPicture arms={arms} choices={choices} button={button} />
  return (
    <div className="choices answerRow" role="group" aria-label={draw.answerGroup}>
      {choices.map(button)}
    </div>
  )
}
