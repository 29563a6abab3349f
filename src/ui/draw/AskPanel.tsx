import type { Ref } from 'react'
import type { Source } from '../../core/protocol/entry.ts'
import type { AskView, ChoiceView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'
import { isRestated } from './isRestated.ts'
import { ChoiceButton, choiceId } from './ChoiceButton.tsx'

interface AskPanelProps {
  readonly heading: Ref<HTMLHeadingElement>
  readonly ask: AskView
  /** What is spoken for it where patients listen. */
  readonly coded: string | undefined
  readonly isHeld: boolean
  readonly onChoose: (choice: ChoiceView, source: Source) => void
}

/** The second word before something that cannot be taken back. */
export function AskPanel({ ask, coded, heading, isHeld, onChoose }: AskPanelProps) {
  const { texts, fill } = useTexts()
  return (
    <section className="say ask" role="alertdialog" aria-labelledby="ask-question">
      <h1 id="ask-question" tabIndex={-1} ref={heading} data-part="instruction">
        {ask.large}
      </h1>
      {coded !== undefined && <p>{fill(texts.draw.spoken, { words: coded })}</p>}
      {!isRestated(ask.question, ask.large) && <p className="wholeQuestion">{ask.question}</p>}
      <div className="yesNo">
        <ChoiceButton choice={ask.yes} size="main" isHeld={isHeld} onChoose={onChoose} />
        <ChoiceButton choice={ask.no} size="main" isHeld={isHeld} onChoose={onChoose} />
      </div>
      {ask.others.length > 0 && (
        <div className="choices">
          {ask.others.map((choice) => (
            <ChoiceButton
              key={choiceId(choice)}
              choice={choice}
              isHeld={isHeld}
              onChoose={onChoose}
            />
          ))}
        </div>
      )}
    </section>
  )
}
