import { Tick } from '../shared/Tick.tsx'
import { useState } from 'react'
import { useActions, useApp } from '../shared/appContext.tsx'
import { PinInput } from './PinInput.tsx'
import { useLockTexts } from './useLockTexts.ts'

/** Turns the PIN off: opened on purpose, the present PIN typed, and what it means ticked. */
export function TurnOffForm() {
  const [isOpen, setOpen] = useState(false)
  const [pin, setPin] = useState('')
  const [isUnderstood, setUnderstood] = useState(false)
  const { isBusy, wait_s, sealing } = useApp((s) => s.lock)
  const actions = useActions()
  const { section } = useLockTexts().texts
  const { turnOff } = section
  const clear = (): void => {
    setPin('')
    setUnderstood(false)
  }
  if (!isOpen) {
    return (
      <p>
        <button type="button" className="button quiet" onClick={() => setOpen(true)}>
          {turnOff.open}
        </button>
      </p>
    )
  }
  return (
    <form className="stopBox lockForm" onSubmit={(event) => event.preventDefault()}>
      <p>{turnOff.about}</p>
      <PinInput label={section.presentPin} value={pin} onChange={setPin} />
      <Tick label={turnOff.understood} checked={isUnderstood} onChange={setUnderstood} />
      <div className="lockButtons">
        <button
          type="button"
          className="button stop"
          disabled={isBusy || wait_s > 0 || sealing !== undefined || pin === '' || !isUnderstood}
          onClick={() => void actions.turnPinOff(pin).then(clear)}
        >
          {turnOff.confirm}
        </button>
        <button
          type="button"
          className="button"
          onClick={() => {
            clear()
            setOpen(false)
          }}
        >
          {turnOff.cancel}
        </button>
      </div>
    </form>
  )
}
