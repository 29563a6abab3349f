import { useEffect, useState } from 'react'
import { createPortal } from 'react-dom'
import { dayAndTime } from '../../core/time/format.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { useTexts } from '../shared/useTexts.ts'
import { SuppliesOf } from './SuppliesOf.tsx'
import { useSupplies } from './useSupplies.ts'
import '../plan/request.css'
import './supplies.css'

/** The supplies on the screen, and on paper. */
export function SuppliesShown() {
  const { site, page } = useServices()
  const { supplies: t } = site.texts.day
  const { fill } = useTexts()
  const { now_ms } = useApp((s) => s.day)
  const { paper } = useApp((s) => s.settings)
  const { n, done, supplies, sittings, leftOver } = useSupplies()
  // It stays on the paper: some browsers print only after the call.
  const [printed, setPrinted] = useState<{ readonly at_ms: number }>()
  useEffect(() => {
    if (printed) page.print()
  }, [printed, page])
  if (done < n) return <p role="status">{fill(t.counting, { done, n })}</p>
  const shown = (
    <>
      {n === 0 && <p>{t.nothing}</p>}
      {supplies.map((each) => (
        <SuppliesOf key={String(each.invented)} supplies={each} />
      ))}
      {leftOver > 0 && <p>{fill(t.leftOver, { n: leftOver })}</p>}
      {sittings > 0 && <p>{fill(t.sittings, { n: sittings })}</p>}
      <p className="soft">{t.about}</p>
    </>
  )
  return (
    <>
      {shown}
      <button type="button" className="button quiet" onClick={() => setPrinted({ at_ms: now_ms })}>
        {t.print}
      </button>
      {printed &&
        createPortal(
          <article className={`requestForm suppliesPaper ${paper}`} aria-label={t.title}>
            <h2>{t.title}</h2>
            <p>{fill(t.printed, { at: dayAndTime(here(printed.at_ms)) })}</p>
            {shown}
          </article>,
          document.body,
        )}
    </>
  )
}
