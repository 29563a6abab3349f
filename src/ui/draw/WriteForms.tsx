import { useState } from 'react'
import type { ReactNode } from 'react'
import type { Command } from '../../core/protocol/commands.ts'
import type { RackTubeView } from '../../app/view/drawViewTypes.ts'
import { Field } from '../shared/Field.tsx'
import { mL } from '../shared/words.ts'

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
      <Field label={label} hint={hint} error={error}>
        {(parts) => (
          <input
            {...parts}
            className="input"
            autoComplete="off"
            inputMode={inputMode ?? 'text'}
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
          />
        )}
      </Field>
      <button type="submit" className="choice plain">
        <span className="label">{submit}</span>
      </button>
    </form>
  )
}

/** A remark for the record. */
export function NoteForm({ onSend }: SendProps) {
  return (
    <OneLine
      label="A note for the record"
      submit="Save the note"
      read={(text) => (text === '' ? 'type the note first.' : { type: 'addNote', text })}
      onSend={onSend}
    />
  )
}

/** A short tube with the volume as the person judges it. */
export function ShortFillForm({ onSend }: SendProps) {
  return (
    <OneLine
      label="Short tube: how much is in it, mL"
      hint="Your best estimate by the graduations."
      submit="Record the short tube"
      inputMode="decimal"
      read={(typed) => {
        const estimate_mL = Number(typed.replace(',', '.'))
        const usable = typed !== '' && estimate_mL >= 0 && estimate_mL <= 20
        return usable ? { type: 'tubeShortBy', estimate_mL } : 'give a volume from 0 to 20 mL.'
      }}
      onSend={onSend}
    />
  )
}

/** What about the patient does not meet the preparation asked for. */
export function NotPreparedForm({ onSend }: SendProps) {
  return (
    <OneLine
      label="Not prepared as asked: what is different?"
      hint="For example: ate two hours ago."
      submit="Record not prepared"
      read={(what) => (what === '' ? 'say what is different.' : { type: 'notPrepared', what })}
      onSend={onSend}
    />
  )
}

/** Who takes over. Attempts are counted by person, so the initials must be their own. */
export function HandOverForm({ onSend }: SendProps) {
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
        if (!to.name || !to.initials) return setError('give the name and initials.')
        const id = `${to.name} ${to.initials}`.toLowerCase().replace(/\s+/g, '-')
        onSend({ type: 'handOver', to: { id, ...to } })
      }}
    >
      <Field label="Hand over to" error={error}>
        {(parts) => (
          <input
            {...parts}
            className="input"
            autoComplete="off"
            value={name}
            onChange={(event) => setName(event.target.value)}
          />
        )}
      </Field>
      <Field label="Their initials">
        {(parts) => (
          <input
            {...parts}
            className="input"
            autoComplete="off"
            value={initials}
            onChange={(event) => setInitials(event.target.value)}
          />
        )}
      </Field>
      <button type="submit" className="choice plain">
        <span className="label">Hand over</span>
      </button>
    </form>
  )
}

/** After "not prepared": somebody named decides, and the record says who. */
export function DecisionForm({ onSend }: SendProps) {
  const [by, setBy] = useState('')
  const [error, setError] = useState<string>()
  const decide = (decision: 'proceed' | 'stop'): void => {
    if (by.trim() === '') return setError('give the name of the person who decided.')
    onSend({ type: 'nameDecision', decision, by: by.trim() })
  }
  return (
    <div className="decision">
      <Field label="Who decided?" hint="The name goes into the record." error={error}>
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
      <div className="answers">
        <button type="button" className="choice plain go" onClick={() => decide('proceed')}>
          <span className="label">Go ahead</span>
        </button>
        <button type="button" className="choice plain stop" onClick={() => decide('stop')}>
          <span className="label">Do not draw</span>
        </button>
      </div>
    </div>
  )
}

/** Records a tube that went on out of turn. */
export function OtherTube({
  rack,
  onSend,
}: SendProps & { readonly rack: readonly RackTubeView[] }): ReactNode {
  const open = rack.filter((tube) => tube.status === 'waiting' || tube.status === 'next')
  if (open.length === 0) return null
  return (
    <section>
      <h2>This tube is on</h2>
      <div className="choices">
        {open.map((tube) => (
          <button
            key={tube.id}
            type="button"
            className="choice plain"
            onClick={() => onSend({ type: 'tubeOnNamed', tubeId: tube.id })}
          >
            <span className="label">{tube.name}</span>
            <span className="phrase">{mL(tube.nominal_mL)}</span>
          </button>
        ))}
      </div>
    </section>
  )
}
