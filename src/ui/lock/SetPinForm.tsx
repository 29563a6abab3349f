import { useState } from 'react'
import type { FormEvent } from 'react'
import { pinFault } from '../../core/lock/pin.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { PinInput } from './PinInput.tsx'
import { useLockTexts } from './useLockTexts.ts'

/** The first PIN, typed twice. */
export function SetPinForm() {
  const [pin, setPin] = useState('')
  const [again, setAgain] = useState('')
  const [isSent, setSent] = useState(false)
  const isBusy = useApp((s) => s.lock.isBusy)
  const actions = useActions()
  const { locked, section } = useLockTexts().texts
  const fault = pinFault(pin)
  const send = (event: FormEvent): void => {
    event.preventDefault()
    setSent(true)
    if (fault === undefined && pin === again) void actions.setPin(pin)
  }
  return (
    <form className="lockForm" onSubmit={send} noValidate>
      <PinInput
        label={section.pin}
        hint={section.pinHint}
        error={isSent && fault !== undefined ? section.faults[fault] : undefined}
        value={pin}
        onChange={setPin}
      />
      <PinInput
        label={section.pinAgain}
        error={isSent && fault === undefined && pin !== again ? section.notAlike : undefined}
        value={again}
        onChange={setAgain}
      />
      <button type="submit" className="button go" disabled={isBusy}>
        {isBusy ? locked.opening : section.setPin}
      </button>
    </form>
  )
}
