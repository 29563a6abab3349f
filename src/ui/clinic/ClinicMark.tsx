import type { ClinicView } from '../../app/hub/clinic.ts'
import type { ClinicTexts } from '../../app/site/clinicTexts.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { useApp } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import type { Fill } from '../shared/useTexts.ts'
import { useClinicTexts } from './useClinicTexts.ts'
import './clinicMark.css'

/** In a few words on the draw how this device stands to its clinic; nothing where it belongs to none. */
export function ClinicMark() {
  const view = useApp((s) => s.clinic)
  const { clinic, fill } = useClinicTexts()
  if (!view) return null
  const isWell = view.link === 'connected'
  return (
    <span className={isWell ? 'clinicMark soft isWell' : 'clinicMark soft'}>
      {' · '}
      <span className="whole">{shortText(view, clinic, fill)}</span>
    </span>
  )
}

function shortText(view: ClinicView, { short }: ClinicTexts, fill: Fill): string {
  switch (view.link) {
    case 'connecting':
      return short.connecting
    case 'refused':
      return short.refused
    case 'alone':
      return fill(short.alone, { since: timeOfDay(here(view.since_ms)) })
    case 'connected':
      return view.waiting_n > 0 ? fill(short.going, { n: view.waiting_n }) : short.connected
  }
}
