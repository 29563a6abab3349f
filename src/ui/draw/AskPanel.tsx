import type { Ref } from 'react'
import type { Source } from '../../core/protocol/entry.ts'
import type { AskView, ChoiceView } from '../../app/view/drawViewTypes.ts'
import { ChoiceButton, choiceId } from './ChoiceButton.tsx'

interface AskPanelProps {
  readonly heading: Ref<HTMLHeadingElement>
  readonly ask: AskView
  readonly onChoose: (choice: ChoiceView, source: Source) => void
}

/** The second word before something that cannot be taken back. */
export function AskPanel({ ask, heading, onChoose }: AskPanelProps) {
  return (
    <section className="ask" role="alertdialog" aria-labelledby="ask-question">
      <h1 id="ask-question" tabIndex={-1} ref={heading}>
        {ask.question}
      </h1>
      <div className="answers">
        <ChoiceButton choice={ask.yes} size="main" onChoose={onChoose} />
        <ChoiceButton choice={ask.no} size="main" onChoose={onChoose} />
      </div>
      {ask.others.length > 0 && (
        <div className="choices">
          {ask.others.map((choice) => (
            <ChoiceButton key={choiceId(choice)} choice={choice} onChoose={onChoose} />
          ))}
        </div>
      )}
    </section>
  )
}
