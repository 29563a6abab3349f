import { TextField } from '../shared/TextField.tsx'
import { useState } from 'react'
import type { Command } from '../../core/protocol/commands.ts'
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
      <TextField label={draw.approvedBy} error={error} value={by} onChange={setBy} />
      <TextField label={draw.approvedWhy} value={why} onChange={setWhy} />
      <button type="submit" className="choice plain">
        <span className="label">{draw.doApprove}</span>
      </button>
    </form>
  )
}
