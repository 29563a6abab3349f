import { useState } from 'react'
import type { FormEvent } from 'react'
import { Field } from '../shared/Field.tsx'
import { useLockTexts } from './useLockTexts.ts'
import { PinInput } from './PinInput.tsx'

interface RecoverFormProps {
  readonly isBusy: boolean
  readonly onRecover: (recoveryKey: string, newPin: string) => void
}

/** Opens by the recovery key and sets a new PIN in one act. */
export function RecoverForm({ isBusy, onRecover }: RecoverFormProps) {
  const [key, setKey] = useState('')
  const [pin, setPin] = useState('')
  const { locked, section } = useLockTexts().texts
  const send = (event: FormEvent): void => {
    event.preventDefault()
    onRecover(key, pin)
  }
  return (
    <form className="lockForm" onSubmit={send}>
      <Field label={locked.recoveryKey} hint={locked.recoveryHint}>
        {(parts) => (
          <input
            {...parts}
            className="input"
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
            value={key}
            onChange={(event) => setKey(event.target.value)}
          />
        )}
      </Field>
      <PinInput label={locked.newPin} hint={section.pinHint} value={pin} onChange={setPin} />
      <button
        type="submit"
        className="button go"
        disabled={isBusy || key.trim() === '' || pin === ''}
      >
        {isBusy ? locked.opening : locked.recover}
      </button>
    </form>
  )
}
