import { useState } from 'react'
import { useActions, useApp } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { LeftClocks } from './LeftClocks.tsx'
import { PinPad } from './PinPad.tsx'
import { RecoverForm } from './RecoverForm.tsx'
import { useLockTexts } from './useLockTexts.ts'
import './lock.css'
import { LockedDues } from '../series/LockedDues.tsx'

/** Nothing of any record, only the clocks of a draw that was running, and the ways in. */
export function LockScreen() {
  const lock = useApp((s) => s.lock)
  const left = useApp((s) => s.left)
  const actions = useActions()
  const [isRecovering, setRecovering] = useState(false)
  const { texts, fill } = useLockTexts()
  const { locked } = texts
  const isClosed = lock.isBusy || lock.wait_s > 0
  return (
    <Frame title={locked.title}>
      {left.length > 0 && (
        <section className="leftDraw" aria-label={locked.running}>
          <p>{locked.running}</p>
          {left.map(({ drawId, clocks }) => (
            <LeftClocks key={drawId} clocks={clocks} />
          ))}
        </section>
      )}
      <LockedDues />
      <p className="lead">{locked.about}</p>
      <div role="status" className="lockTold">
        {lock.told !== undefined && <p className="error">{lock.told}</p>}
        {lock.wait_s > 0 && <p className="figures">{fill(locked.wait, { n: lock.wait_s })}</p>}
      </div>
      {isRecovering ? (
        <RecoverForm
          isBusy={lock.isBusy}
          onRecover={(key, pin) => void actions.recover(key, pin)}
        />
      ) : (
        <PinPad
          isDisabled={isClosed}
          isBusy={lock.isBusy}
          onPin={(pin) => void actions.unlock(pin)}
        />
      )}
      <button
        type="button"
        className="button quiet"
        onClick={() => setRecovering((before) => !before)}
      >
        {isRecovering ? locked.byPin : locked.byRecovery}
      </button>
      {isRecovering && <p className="soft">{locked.lost}</p>}
    </Frame>
  )
}
