import { Tick } from '../shared/Tick.tsx'
import { useState } from 'react'
import { oldDraws } from '../../app/record/oldDraws.ts'
import { InClinicToo } from '../clinic/InClinicToo.tsx'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { NumberSetting } from './NumberSetting.tsx'
import { useLockTexts } from './useLockTexts.ts'
import './lock.css'

/** In the settings: whether the browser keeps the records, how long the site does, and erasing the old ones. */
export function RecordsSection() {
  const kept = useApp((s) => s.storageKept)
  const { records } = useLockTexts().texts
  const promise = kept ? records.kept : kept === false ? records.mayBeCleared : records.keptUnknown
  return (
    <Section title={records.title} about={records.about}>
      <p>{promise}</p>
      <NumberSetting name="retention_days" label={records.days} hint={records.daysHint} />
      <OldRecords />
    </Section>
  )
}

/** Their logs are offered as files before they can be erased. */
function OldRecords() {
  const draws = useApp((s) => s.draws)
  const days = useApp((s) => s.settings.retention_days)
  const actions = useActions()
  const { texts, fill } = useLockTexts()
  const [isKept, setKept] = useState(false)
  const [erased, setErased] = useState<number>()
  const { now_ms } = useServices()
  const { records } = texts
  if (days === 0) return null
  const n = oldDraws(draws, days, now_ms()).length
  const erase = async (): Promise<void> => {
    setErased(await actions.eraseOld())
    setKept(false)
  }
  return (
    <div className="lockForm">
      <p role="status">
        {erased !== undefined && `${fill(records.erased, { n: erased })} `}
        {n > 0 ? fill(records.old, { n, days }) : fill(records.none, { days })}
      </p>
      {n > 0 && (
        <>
          <InClinicToo />
          <button
            type="button"
            className="button"
            onClick={() => void actions.saveOld().then(() => setKept(true))}
          >
            {records.saveAll}
          </button>
          <Tick label={fill(records.keptElsewhere)} checked={isKept} onChange={setKept} />
          <button
            type="button"
            className="button stop"
            disabled={!isKept}
            onClick={() => void erase()}
          >
            {fill(records.eraseAll, { n })}
          </button>
        </>
      )}
    </div>
  )
}
