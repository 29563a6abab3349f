import type { Ref } from 'react'
import type { ChoiceView, DrawView } from '../../app/view/drawViewTypes.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { Source } from '../../core/protocol/entry.ts'
import { Answers } from './Answers.tsx'
import { AskPanel } from './AskPanel.tsx'
import { BigClock, SmallClocks } from './BigClock.tsx'
import { labelNow } from './LabelsPanel.tsx'
import { HeardLine } from './Listening.tsx'
import { SeverePanel } from './SeverePanel.tsx'
import { formOf } from './StepForm.tsx'
import { StepPanel } from './StepPanel.tsx'
import { AccessionForm } from './WriteForms.tsx'

interface DrawStageProps {
  readonly view: DrawView
  readonly heading: Ref<HTMLHeadingElement>
  readonly isWhole: boolean
  readonly isHeard: (choice: ChoiceView) => boolean
  readonly isHeld: boolean
  readonly onSend: (command: Command) => void
  readonly onChoose: (choice: ChoiceView, source: Source) => void
}

/** What to do, and the clock that matters for it. */
export function DrawStage(props: DrawStageProps) {
  const { view, heading, isWhole, isHeard, isHeld, onSend, onChoose } = props
  // Where no arm may be used there is nothing to choose: somebody decides first.
  const isAsked = !view.closed && !view.elsewhere && formOf(view) !== 'noArm'
  const answers = isAsked ? view.choices.filter(isAnswer) : []
  const arms = isAsked ? view.arms : undefined
  const toTake =
    view.labelsBy === 'laboratory' && view.step.id === 'labels' ? labelNow(view.labels) : undefined
  return (
    <div className="stage">
      {view.ask ? (
        <AskPanel ask={view.ask} coded={view.coded} where={view.ruler.where} heading={heading} />
      ) : view.severe ? (
        <SeverePanel severe={view.severe} coded={view.coded} heading={heading} />
      ) : (
        <StepPanel view={view} heading={heading} isWhole={isWhole}>
          <Answers
            choices={answers}
            arms={arms}
            isHeard={isHeard}
            isHeld={isHeld}
            onChoose={onChoose}
          />
          {toTake && <AccessionForm key={toTake.tubeId} label={toTake} onSend={onSend} />}
        </StepPanel>
      )}
      {view.mainClock && (
        <div className="clockPlace" data-part="clock">
          <BigClock clock={view.mainClock} />
        </div>
      )}
      <div className="stageFoot">
        <HeardLine heard={view.heard} />
        <SmallClocks clocks={view.otherClocks} />
      </div>
    </div>
  )
}

const isAnswer = ({ place }: ChoiceView): boolean => place === 'answer'
