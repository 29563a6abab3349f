import { useState } from 'react'
import type { Command } from '../../core/protocol/commands.ts'
import { Field } from '../shared/Field.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface ApproveBloodFormProps {
  readonly onSend: (command: Command) => void
}

/** More blood than the limit: somebody named decides, and the record says who and why. */
export function ApproveBloodForm({ onSend }: ApproveBloodFormProps) {
  const { draw } = useTexts().texts
  const [by, setBy] = useState('')
  const [why, setWhy] = useState('')
  const [error, setError] = useState<string>()
  return (
    <form
      className="oneLine two"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        if (!by.trim() || !why.trim()) return setError(draw.noApproval)
        onSend({ type: 'approveBlood', by: by.trim(), why: why.trim() })
      }}
    >
      <Field label={draw.approvedBy} error={error}>
        {(parts) => (
          <input
            {...parts}
            className="input"
            autoComplete="off"
            value={by}
            onChange={(event) => setBy(event.target.value)}
          />
        )}
      </Field>
      <Field label={draw.approvedWhy}>
        {(parts) => (
          <input
            {...parts}
            className="input"
            autoComplete="off"
            value={why}
            onChange={(event) => setWhy(event.target.value)}
          />
        )}
      </Field>
      <button type="submit" className="choice plain">
        <span className="label">{draw.doApprove}</span>
      </button>
    </form>
  )
}
