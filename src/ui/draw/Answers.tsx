import type { ArmView, ChoiceView } from '../../app/view/drawViewTypes.ts'
import { ArmPicture } from '../pictures/ArmPicture.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { choiceButtons, type ChoiceHandling } from './ChoiceButton.tsx'

interface AnswersProps extends ChoiceHandling {
  readonly choices: readonly ChoiceView[]
  /** The arms that the step is about: they are drawn, and chosen on the drawing. */
  readonly arms?: readonly ArmView[] | undefined
}

/** What may be answered where the step asks something. The arrow keys go over them. */
export function Answers({ choices, arms, ...handling }: AnswersProps) {
  const { draw } = useTexts().texts
  if (choices.length === 0 && !arms) return null
  const button = choiceButtons(handling)
  if (arms) return <ArmPicture arms={arms} choices={choices} button={button} />
  return (
    <div className="choices answerRow" role="group" aria-label={draw.answerGroup}>
      {choices.map(button)}
    </div>
  )
}
