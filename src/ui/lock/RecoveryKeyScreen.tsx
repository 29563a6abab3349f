import { Tick } from '../shared/Tick.tsx'
import { useState } from 'react'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { useLockTexts } from './useLockTexts.ts'
import './lock.css'

/** The recovery key, once. It leaves the screen only when somebody says that it is kept. */
export function RecoveryKeyScreen({ recoveryKey }: { readonly recoveryKey: string }) {
  const [isKept, setKept] = useState(false)
  const sealing = useApp((s) => s.lock.sealing)
  const actions = useActions()
  const { page } = useServices()
  const { texts, fill } = useLockTexts()
  const { recovery, section } = texts
  return (
    <Frame title={recovery.title}>
      <h2 className="printOnly">{recovery.title}</h2>
      <p className="lead">{recovery.about}</p>
      <p className="recoveryKey figures">{recoveryKey}</p>
      <div className="lockForm noPrint">
        <button type="button" className="button" onClick={() => page.print()}>
          {recovery.print}
        </button>
        <Tick label={recovery.kept} checked={isKept} onChange={setKept} />
        {sealing && (
          <p role="status" className="figures">
            {fill(section.sealing, sealing)}
          </p>
        )}
        <button
          type="button"
          className="button go"
          disabled={!isKept}
          onClick={() => actions.keptRecovery()}
        >
          {recovery.done}
        </button>
      </div>
    </Frame>
  )
}
