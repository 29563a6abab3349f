import { useState } from 'react'
import type { LabelView } from '../../app/view/drawViewTypes.ts'
import type { Command } from '../../core/protocol/commands.ts'
import { UNLABELLED_ENDS, type UnlabelledEnd } from '../../core/protocol/events.ts'
import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface UnlabelledFormProps {
  readonly labels: readonly LabelView[]
  /** After the close nobody stands beside the patient: it can only be thrown away or sent. */
  readonly isClosed?: boolean
  readonly onSend: (command: Command) => void
}

/** A tube was found without a label: which, what is decided, and who says so. Nothing is chosen beforehand. */
export function UnlabelledForm({ labels, isClosed = false, onSend }: UnlabelledFormProps) {
  const { draw } = useTexts().texts
  const [tubeId, setTubeId] = useState('')
  const [how, setHow] = useState<UnlabelledEnd | ''>('')
  const [by, setBy] = useState('')
  const [error, setError] = useState<string>()
  const ends = UNLABELLED_ENDS.filter((end) => !isClosed || end !== 'stayedInHand')
  const nameOf = (id: string): string => {
    const label = labels.find((each) => each.tubeId === id)
    return label ? [label.tubeName, label.number ?? ''].join(' ').trim() : draw.unlabelledOpen
  }
  return (
    <form
      className="oneLine two"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        if (tubeId === '' || how === '' || by.trim() === '') return setError(draw.noUnlabelled)
        onSend({ type: 'settleUnlabelled', tubeId, how, by: by.trim() })
      }}
    >
      <SelectField
        label={draw.unlabelledWhich}
        error={error}
        options={['', ...labels.map((label) => label.tubeId)]}
        nameOf={nameOf}
        value={tubeId}
        onChange={setTubeId}
      />
      <SelectField
        label={draw.unlabelledHow}
        options={['', ...ends]}
        nameOf={(end) =>
          end === ''
            ? draw.unlabelledHowOpen
            : isClosed && end === 'discarded'
              ? draw.unlabelledLater
              : draw.unlabelledHows[end]
        }
        value={how}
        onChange={setHow}
      />
      <TextField label={draw.unlabelledBy} value={by} onChange={setBy} />
      <button type="submit" className="choice plain">
        <span className="label">{draw.settleUnlabelled}</span>
      </button>
    </form>
  )
}
