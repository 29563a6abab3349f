import { useState } from 'react'
import { pinFault } from '../../core/lock/pin.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { PinInput } from './PinInput.tsx'
import { useLockTexts } from './useLockTexts.ts'

/** Another PIN, or another recovery key; the present PIN is asked for either. */
export function ChangePinForm() {
  const [present, setPresent] = useState('')
  const [next, setNext] = useState('')
  const { isBusy, wait_s } = useApp((s) => s.lock)
  const actions = useActions()
  const { texts, fill } = useLockTexts()
  const { section, locked } = texts
  const fault = next === '' ? undefined : pinFault(next)
  const isClosed = isBusy || wait_s > 0 || present === ''
  const clear = (): void => {
    setPresent('')
    setNext('')
  }
  return (
    <form className="lockForm" onSubmit={(event) => event.preventDefault()}>
      <PinInput label={section.presentPin} value={present} onChange={setPresent} />
      <PinInput
        label={section.newPin}
        error={fault && section.faults[fault]}
        value={next}
        onChange={setNext}
      />
      {wait_s > 0 && <p className="figures">{fill(locked.wait, { n: wait_s })}</p>}
      <div className="lockButtons">
        <button
          type="button"
          className="button"
          disabled={isClosed || next === '' || fault !== undefined}
          onClick={() => void actions.changePin(present, next).then(clear)}
        >
          {section.changePin}
        </button>
        <button
          type="button"
          className="button"
          disabled={isClosed}
          onClick={() => void actions.renewRecovery(present).then(clear)}
        >
          {section.newRecovery}
        </button>
      </div>
    </form>
  )
}
