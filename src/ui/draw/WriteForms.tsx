import { collectorId } from '../../core/order/collectorId.ts'
import { useState } from 'react'
import type { ReactNode } from 'react'
import type { Command } from '../../core/protocol/commands.ts'
import type { LabelView, RackTubeView } from '../../app/view/drawViewTypes.ts'
import { TextField } from '../shared/TextField.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'

/** More than any tube of the trade holds. */
const MOST_mL = 20

interface SendProps {
  readonly onSend: (command: Command) => void
}

interface OneLineProps {
  readonly label: string
  readonly hint?: string
  readonly submit: string
  readonly inputMode?: 'text' | 'decimal'
  /** What to send for the words typed, or a sentence about what is wrong with them. */
  readonly read: (typed: string) => Command | string
}

function OneLine({ label, hint, submit, inputMode, read, onSend }: OneLineProps & SendProps) {
  const [typed, setTyped] = useState('')
  const [error, setError] = useState<string>()
  const send = (): void => {
    const result = read(typed.trim())
    if (typeof result === 'string') return setError(result)
    onSend(result)
  }
  return (
    <form
      className="oneLine"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        send()
      }}
    >
      <TextField
        label={label}
        hint={hint}
        error={error}
        inputMode={inputMode ?? 'text'}
        value={typed}
        onChange={setTyped}
      />
      <button type="submit" className="choice plain">
        <span className="label">{submit}</span>
      </button>
    </form>
  )
}

/** A remark for the record. */
export function NoteForm({ onSend }: SendProps) {
  const { draw } = useTexts().texts
  return (
    <OneLine
      label={draw.remark}
      submit={draw.saveRemark}
      read={(text) => (text === '' ? draw.noRemark : { type: 'addNote', text })}
      onSend={onSend}
    />
  )
}

/** What is about the person who was stuck: it does not go into the chart. */
export function ExposureForm({ onSend }: SendProps) {
  const { draw } = useTexts().texts
  return (
    <OneLine
      label={draw.exposure}
      submit={draw.saveExposure}
      read={(text) => (text === '' ? draw.noExposure : { type: 'noteExposure', text })}
      onSend={onSend}
    />
  )
}

/** A short tube, or what is in a syringe, with the volume as the person judges it. */
export function ShortFillForm({ of, onSend }: SendProps & { readonly of: 'tube' | 'syringe' }) {
  const { texts, fill } = useTexts()
  const { draw } = texts
  const words =
    of === 'tube'
      ? { label: draw.shortFill, hint: draw.shortFillHint, submit: draw.recordShort }
      : { label: draw.syringeHolds, hint: draw.syringeHoldsHint, submit: draw.recordSyringe }
  return (
    <OneLine
      label={words.label}
      hint={words.hint}
      submit={words.submit}
      inputMode="decimal"
      read={(typed) => {
        const estimate_mL = Number(typed.replace(',', '.'))
        const usable = typed !== '' && estimate_mL >= 0 && estimate_mL <= MOST_mL
        return usable
          ? { type: of === 'tube' ? 'tubeShortBy' : 'syringeHolds', estimate_mL }
          : fill(draw.noVolume, { most: MOST_mL })
      }}
      onSend={onSend}
    />
  )
}

/** The number on the laboratory's label of a tube, where the scanner cannot read it or reads it as another tube's. */
export function AccessionForm({ label, onSend }: SendProps & { readonly label: LabelView }) {
  const { texts, fill } = useTexts()
  const { draw } = texts
  return (
    <OneLine
      label={fill(draw.typeNumber, { tube: label.tubeName })}
      hint={draw.typeNumberHint}
      submit={draw.takeNumber}
      read={(text) =>
        text === '' ? draw.noNumber : { type: 'takeAccession', tubeId: label.tubeId, text }
      }
      onSend={onSend}
    />
  )
}

/** What about the patient does not meet the preparation asked for. */
export function NotPreparedForm({ onSend }: SendProps) {
  const { draw } = useTexts().texts
  return (
    <OneLine
      label={draw.notPrepared}
      hint={draw.notPreparedHint}
      submit={draw.recordNotPrepared}
      read={(what) => (what === '' ? draw.noDifference : { type: 'notPrepared', what })}
      onSend={onSend}
    />
  )
}

/** Who takes over. Attempts are counted by person, so the initials must be their own. */
export function HandOverForm({ onSend }: SendProps) {
  const { draw } = useTexts().texts
  const [name, setName] = useState('')
  const [initials, setInitials] = useState('')
  const [error, setError] = useState<string>()
  return (
    <form
      className="oneLine two"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        const to = { name: name.trim(), initials: initials.trim() }
        if (!to.name || !to.initials) return setError(draw.noColleague)
        onSend({ type: 'handOver', to: { id: collectorId(to), ...to } })
      }}
    >
      <TextField label={draw.handOver} error={error} value={name} onChange={setName} />
      <TextField label={draw.theirInitials} value={initials} onChange={setInitials} />
      <button type="submit" className="choice plain">
        <span className="label">{draw.doHandOver}</span>
      </button>
    </form>
  )
}

/** Records a tube that went on out of turn. */
export function OtherTube({
  rack,
  onSend,
}: SendProps & { readonly rack: readonly RackTubeView[] }): ReactNode {
  const { draw } = useTexts().texts
  const { mL } = useUnits()
  const open = rack.filter((tube) => tube.status === 'waiting' || tube.status === 'next')
  if (open.length === 0) return null
  return (
    <section>
      <h2>{draw.tubeIsOn}</h2>
      <div className="choices">
        {open.map((tube) => (
          <button
            key={tube.id}
            type="button"
            className="choice plain"
            onClick={() => onSend({ type: 'tubeOnNamed', tubeId: tube.id })}
          >
            <span className="label">{tube.name}</span>
            <span className="phrase">{mL(tube.fill_mL)}</span>
          </button>
        ))}
      </div>
    </section>
  )
}
