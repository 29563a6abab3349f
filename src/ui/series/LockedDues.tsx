import { timeOfDay } from '../../core/time/format.ts'
import { useApp } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { useTexts } from '../shared/useTexts.ts'

/** That samples are due and when, and nothing of whose. */
export function LockedDues() {
  const dues_ms = useApp((s) => s.dues_ms)
  const { texts, fill } = useTexts()
  if (dues_ms.length === 0) return null
  const at = timeOfDay(here(Math.min(...dues_ms)))
  return <p className="figures">{fill(texts.series.locked, { n: dues_ms.length, at })}</p>
}
