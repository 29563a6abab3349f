import type { Ref } from 'react'
import type { Command } from '../../core/protocol/commands.ts'
import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { IdentityPanel } from './IdentityPanel.tsx'
import { LabelsPanel } from './LabelsPanel.tsx'
import { DecisionForm } from './DecisionForm.tsx'
import { ApproveBloodForm } from './ApproveBloodForm.tsx'
import { UnlabelledForm } from './UnlabelledForm.tsx'

interface StepPanelProps {
  readonly view: DrawView
  readonly heading: Ref<HTMLHeadingElement>
  readonly onSend: (command: Command) => void
}

/** The one step: its instruction, its few cautions, and what it needs to be read beside it. */
export function StepPanel({ view, heading, onSend }: StepPanelProps) {
  const { step } = view
  return (
    <section className="step" aria-labelledby="step-instruction">
      <p className="title">{step.title}</p>
      <h1 id="step-instruction" className="instruction" tabIndex={-1} ref={heading}>
        {step.instruction}
      </h1>
      {/* Before the cautions: on a small screen what is compared must stand in sight. */}
      {(step.id === 'identity' || step.id === 'wristband') && (
        <IdentityPanel identifiers={view.identifiers} />
      )}
      {step.points.length > 0 && (
        <ul className="points">
          {step.points.map((point) => (
            <li key={point}>{point}</li>
          ))}
        </ul>
      )}
      {step.id === 'wristband' && !view.elsewhere && (
        <DecisionForm subjects={['wristband']} onSend={onSend} />
      )}
      {step.id === 'decision' && !view.elsewhere && (
        <DecisionForm subjects={['preparation']} onSend={onSend} />
      )}
      {step.id === 'provider' && !view.elsewhere && (
        <DecisionForm subjects={['redraw']} onSend={onSend} />
      )}
      {view.noArmLeft && !view.elsewhere && (
        <DecisionForm subjects={['restrictedArm']} onSend={onSend} />
      )}
      {view.overLimit && !view.elsewhere && <ApproveBloodForm onSend={onSend} />}
      {step.id === 'unlabelled' && !view.elsewhere && (
        <UnlabelledForm labels={view.labels} onSend={onSend} />
      )}
      {step.id === 'labels' && view.labels.length > 0 && (
        <LabelsPanel view={view} onSend={onSend} />
      )}
    </section>
  )
}
