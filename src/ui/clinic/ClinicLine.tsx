import { timeOfDay } from '../../core/time/format.ts'
import type { ClinicView } from '../../app/hub/clinic.ts'
import type { ClinicTexts } from '../../app/site/clinicTexts.ts'
import { useApp } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import type { Fill } from '../shared/useTexts.ts'
import { useClinicTexts } from './useClinicTexts.ts'

/** One line on how this device stands to its clinic; nothing on a device that belongs to none. */
export function ClinicLine() {
  const view = useApp((s) => s.clinic)
  const { clinic, fill } = useClinicTexts()
  if (!view) return null
  return (
    <p className={view.link === 'refused' ? 'clinicLine warnBox' : 'clinicLine soft'} role="status">
      {linkText(view, clinic, fill)}
      {view.link === 'connected' && view.isSentElsewhere && ` ${clinic.link.otherPage}`}
    </p>
  )
}

function linkText(view: ClinicView, { link, refusals }: ClinicTexts, fill: Fill): string {
  const { coming_n, waiting_n } = view
  const since = timeOfDay(here(view.since_ms))
  switch (view.link) {
    case 'connecting':
      return link.connecting
    case 'refused':
      return fill(link.refused, { why: refusals[view.why] })
    case 'alone':
      return waiting_n === 0
        ? fill(link.alone, { since })
        : fill(link.aloneWaiting, { since, n: waiting_n })
    case 'connected':
      if (coming_n > 0) return fill(link.coming, { n: coming_n })
      return waiting_n > 0 ? fill(link.going, { n: waiting_n }) : link.connected
  }
}
