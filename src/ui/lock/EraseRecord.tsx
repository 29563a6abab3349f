import { Tick } from '../shared/Tick.tsx'
import { useState } from 'react'
import { InClinicToo } from '../clinic/InClinicToo.tsx'
import { useActions, useServices } from '../shared/appContext.tsx'
import { useLockTexts } from './useLockTexts.ts'
import './lock.css'

/** Takes one record off the device: its log is offered as a file first, and the last press is a deliberate one. */
export function EraseRecord({ drawId }: { readonly drawId: string }) {
  const [isOpen, setOpen] = useState(false)
  const [isKept, setKept] = useState(false)
  const actions = useActions()
  const { page } = useServices()
  const { eraseOne } = useLockTexts().texts
  const save = async (): Promise<void> => {
    const file = await actions.exportRecord(drawId, 'log')
    if (!file) return
    page.saveText(file)
    setKept(true)
  }
  if (!isOpen) {
    return (
      <p className="noPrint">
        <button type="button" className="button quiet" onClick={() => setOpen(true)}>
          {eraseOne.open}
        </button>
      </p>
    )
  }
  return (
    <section className="stopBox lockForm noPrint">
      <p>{eraseOne.about}</p>
      <InClinicToo />
      <button type="button" className="button" onClick={() => void save()}>
        {eraseOne.save}
      </button>
      <Tick label={eraseOne.keptElsewhere} checked={isKept} onChange={setKept} />
      <div className="lockButtons">
        <button
          type="button"
          className="button stop"
          disabled={!isKept}
          onClick={() => void actions.eraseRecord(drawId)}
        >
          {eraseOne.erase}
        </button>
        <button type="button" className="button" onClick={() => setOpen(false)}>
          {eraseOne.cancel}
        </button>
      </div>
    </section>
  )
}
