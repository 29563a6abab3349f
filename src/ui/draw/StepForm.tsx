import type { Command } from '../../core/protocol/commands.ts'
import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { ApproveBloodForm } from './ApproveBloodForm.tsx'
import { DecisionForm } from './DecisionForm.tsx'
import { UnlabelledForm } from './UnlabelledForm.tsx'
import { HandOverForm } from './WriteForms.tsx'

interface StepFormProps {
  readonly view: DrawView
  readonly onSend: (command: Command) => void
}

/** True where the step is passed by something written: its form then has the place of the main choice. */
export function hasForm(view: DrawView): boolean {
  const { id } = view.step
  if (view.closed ?? view.elsewhere ?? view.ask) return false
  return (
    ['wristband', 'decision', 'provider', 'unlabelled', 'colleague'].includes(id) ||
    view.noArmLeft ||
    view.overLimit === true
  )
}

/** What has to be written before the draw goes on: who decided, who took over, what becomes of a tube. */
export function StepForm({ view, onSend }: StepFormProps) {
  switch (view.step.id) {
    case 'wristband':
      return <DecisionForm subjects={['wristband']} onSend={onSend} />
    case 'decision':
      return <DecisionForm subjects={['preparation']} onSend={onSend} />
    case 'provider':
      return <DecisionForm subjects={['redraw']} onSend={onSend} />
    case 'unlabelled':
      return <UnlabelledForm labels={view.labels} onSend={onSend} />
    case 'colleague':
      return <HandOverForm onSend={onSend} />
    default:
      return view.noArmLeft ? (
        <DecisionForm subjects={['restrictedArm']} onSend={onSend} />
      ) : (
        <ApproveBloodForm onSend={onSend} />
      )
  }
}
