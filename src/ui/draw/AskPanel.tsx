import type { Ref } from 'react'
import type { AskView, ChoiceView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'
import { isRestated } from './isRestated.ts'
import { choiceButtons, type ChoiceHandling } from './ChoiceButton.tsx'

interface AskPanelProps {
  readonly heading: Ref<HTMLHeadingElement>
  readonly ask: AskView
  /** What is spoken for it where patients listen. */
  readonly coded: string | undefined
  /** How many tubes are drawn. */
  readonly where: string
}

/** The second word before something that cannot be taken back, where the instruction stands. */
export function AskPanel({ ask, coded, where, heading }: AskPanelProps) {
  const { texts, fill } = useTexts()
  return (
    <section className="say ask" role="alertdialog" aria-labelledby="ask-question">
      <p className="above">
        {coded === undefined ? where : fill(texts.draw.spoken, { words: coded })}
      </p>
      <h1
        id="ask-question"
        className="instruction"
        tabIndex={-1}
        ref={heading}
        data-part="instruction"
      >
        {ask.large}
      </h1>
      {!isRestated(ask.question, ask.large) && <p className="wholeQuestion">{ask.question}</p>}
    </section>
  )
}

/** What stands in the place of the main choice while a question is open: yes, or no where a yes does harm. */
export const mainAnswer = ({ yes, no }: AskView): ChoiceView => (no.place === 'main' ? no : yes)

interface OtherAnswersProps extends ChoiceHandling {
  readonly ask: AskView
}

/** The other answers of a question, beside the place of the main choice. */
export function OtherAnswers({ ask, ...handling }: OtherAnswersProps) {
  const other = mainAnswer(ask) === ask.no ? ask.yes : ask.no
  return <div className="otherAnswers">{[other, ...ask.others].map(choiceButtons(handling))}</div>
}
