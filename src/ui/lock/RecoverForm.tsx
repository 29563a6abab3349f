import { TextField } from '../shared/TextField.tsx'
import { useState } from 'react'
import type { FormEvent } from 'react'
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
      <TextField
        label={locked.recoveryKey}
        hint={locked.recoveryHint}
        autoCapitalize="characters"
        spellCheck={false}
        value={key}
        onChange={setKey}
      />
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
