import { timeOfDay } from '../../core/time/format.ts'
import { useApp } from './appContext.tsx'
import { here } from './here.ts'
import { useTexts } from './useTexts.ts'

/** That samples are due now, on every screen but the first, which lists them; nothing of whose, as beside a patient. */
export function DueLine() {
  const screen = useApp((s) => s.screen.name)
  const dues_ms = useApp((s) => s.dues_ms)
  const now_ms = useApp((s) => s.seriesNow_ms)
  const { texts, fill } = useTexts()
  const due = dues_ms.filter((due_ms) => due_ms <= now_ms)
  if (screen === 'home' || due.length === 0) return null
  const at = timeOfDay(here(Math.min(...due)))
  return (
    <p className="warnBox figures" role="status">
      {fill(texts.series.locked, { n: due.length, at })}
    </p>
  )
}
