import type { Command } from '../../core/protocol/commands.ts'
import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { ApproveBloodForm } from './ApproveBloodForm.tsx'
import { DecisionForm } from './DecisionForm.tsx'
import { UnlabelledForm } from './UnlabelledForm.tsx'
import { HandOverForm } from './WriteForms.tsx'

const FORM_STEPS = ['wristband', 'decision', 'provider', 'unlabelled', 'colleague'] as const
type FormKind = (typeof FORM_STEPS)[number] | 'noArm' | 'overLimit'

/** What is written where a step is passed by it: its form then has the place of the main choice. */
export function formOf(view: DrawView): FormKind | undefined {
  if (view.closed || view.elsewhere || view.ask) return undefined
  const ofStep = FORM_STEPS.find((id) => id === view.step.id)
  return ofStep ?? (view.noArmLeft ? 'noArm' : view.overLimit ? 'overLimit' : undefined)
}

interface StepFormProps {
  readonly form: FormKind
  readonly labels: DrawView['labels']
  readonly onSend: (command: Command) => void
}

/** What has to be written before the draw goes on: who decided, who took over, what becomes of a tube. */
export function StepForm({ form, labels, onSend }: StepFormProps) {
  switch (form) {
    case 'wristband':
      return <DecisionForm subjects={['wristband']} onSend={onSend} />
    case 'decision':
      return <DecisionForm subjects={['preparation']} onSend={onSend} />
    case 'provider':
      return <DecisionForm subjects={['redraw']} onSend={onSend} />
    case 'noArm':
      return <DecisionForm subjects={['restrictedArm']} onSend={onSend} />
    case 'unlabelled':
      return <UnlabelledForm labels={labels} onSend={onSend} />
    case 'colleague':
      return <HandOverForm onSend={onSend} />
    case 'overLimit':
      return <ApproveBloodForm onSend={onSend} />
  }
}
