import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useState } from 'react'
import { defined } from '../../core/basics/defined.ts'
import { ARMS, type Arm, type DecisionSubject } from '../../core/order/order.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { NamedDecision } from '../../core/protocol/events.ts'
import { useTexts } from '../shared/useTexts.ts'

interface DecisionFormProps {
  /** What may be decided here, the likeliest first. A decision about anything but the preparation gives its reason. */
  readonly subjects: readonly DecisionSubject[]
  readonly onSend: (command: Command) => void
}

/** Where the draw was stopped at, somebody named decides, and the record says who. */
export function DecisionForm({ subjects, onSend }: DecisionFormProps) {
  const { draw } = useTexts().texts
  const [about, setAbout] = useState(subjects[0] ?? 'preparation')
  const [by, setBy] = useState('')
  const [why, setWhy] = useState('')
  const [arm, setArm] = useState<Arm>()
  const [error, setError] = useState<string>()
  const needsReason = about !== 'preparation'
  const needsArm = about === 'restrictedArm'
  const decide = (decision: NamedDecision): void => {
    if (by.trim() === '') return setError(draw.noDecider)
    if (needsReason && why.trim() === '') return setError(draw.noReason)
    if (needsArm && !arm) return setError(draw.noDecidedArm)
    const more = needsReason ? { about, why: why.trim(), arm: needsArm ? arm : undefined } : {}
    onSend(defined({ type: 'nameDecision' as const, decision, by: by.trim(), ...more }))
  }
  return (
    <div className="decision">
      {subjects.length > 1 && (
        <SelectField
          label={draw.decisionAbout}
          options={subjects}
          nameOf={(subject) => draw.decisionSubjects[subject]}
          value={about}
          onChange={setAbout}
        />
      )}
      {needsArm && (
        <SelectField
          label={draw.decidedArm}
          options={['', ...ARMS]}
          nameOf={(each) => (each === '' ? draw.decidedArmOpen : draw.decidedArms[each])}
          value={arm ?? ''}
          onChange={(each) => setArm(each === '' ? undefined : each)}
        />
      )}
      <TextField
        label={draw.decidedBy}
        hint={draw.decidedByHint}
        error={error}
        value={by}
        onChange={setBy}
      />
      {needsReason && <TextField label={draw.reason} value={why} onChange={setWhy} />}
      <div className="answers">
        <button type="button" className="choice plain go" onClick={() => decide('proceed')}>
          <span className="label">{draw.proceed}</span>
        </button>
        <button type="button" className="choice plain stop" onClick={() => decide('stop')}>
          <span className="label">{draw.stop}</span>
        </button>
      </div>
    </div>
  )
}
