import type { DrawView } from '../../app/view/drawViewTypes.ts'
import type { Command } from '../../core/protocol/commands.ts'
import { useTexts } from '../shared/useTexts.ts'
import { mainAnswer, OtherAnswers } from './AskPanel.tsx'
import { ChoiceButton, type ChoiceHandling } from './ChoiceButton.tsx'
import { ClosedPanel } from './ClosedPanel.tsx'
import { Places } from './Places.tsx'
import { formOf, StepForm } from './StepForm.tsx'

interface DrawFootProps extends ChoiceHandling {
  readonly view: DrawView
  /** Changes with what is asked: a press that began before is not taken by what stands there now. */
  readonly asked: string
  readonly onSend: (command: Command) => void
  readonly onSheet: () => void
}

/** The main choice, always in one place, and the six places beside it. */
export function DrawFoot(props: DrawFootProps) {
  const { view, asked, isHeard, isHeld, onChoose, onSend, onSheet } = props
  const handling = { isHeard, isHeld, onChoose }
  const { draw } = useTexts().texts
  if (view.elsewhere) return null
  if (view.closed) return <ClosedPanel drawId={view.drawId} closed={view.closed} />
  const main = view.ask ? mainAnswer(view.ask) : view.choices.find(({ place }) => place === 'main')
  const form = formOf(view)
  return (
    <div className="answers drawFoot" role="group" aria-label={draw.whatNow}>
      <div className="mainPlace">
        {form ? (
          <StepForm form={form} labels={view.labels} onSend={onSend} />
        ) : (
          main && (
            <ChoiceButton
              key={asked}
              choice={main}
              size="main"
              isHeard={isHeard(main)}
              isHeld={isHeld}
              onChoose={onChoose}
            />
          )
        )}
        <span key={`hold ${asked}`} className="holdLine" aria-hidden="true" />
      </div>
      {view.ask ? (
        <OtherAnswers ask={view.ask} {...handling} />
      ) : (
        <Places choices={view.choices} onSheet={onSheet} {...handling} />
      )}
    </div>
  )
}
