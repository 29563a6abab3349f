import { useApp } from '../shared/appContext.tsx'
import { BeginAnewNews } from './BeginAnewNews.tsx'
import { useClinicTexts } from './useClinicTexts.ts'

/** A desk gave something that is not in use here yet: when it comes into use, and how to have it now. */
export function SharedNews() {
  const view = useApp((s) => s.clinicSetup)
  const { clinic, fill } = useClinicTexts()
  const { news, newsAbout, use, whats } = clinic.shared
  const waiting = view?.kind === 'member' ? view.shared.filter(({ isWaiting }) => isWaiting) : []
  if (waiting.length === 0) return null
  return (
    <BeginAnewNews button={use}>
      <p>{fill(news, { whats: waiting.map(({ what }) => whats[what]).join(', ') })}</p>
      <p className="soft">{newsAbout}</p>
    </BeginAnewNews>
  )
}
