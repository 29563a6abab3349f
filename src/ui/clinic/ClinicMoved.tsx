import { useApp } from '../shared/appContext.tsx'
import { BeginAnewNews } from './BeginAnewNews.tsx'
import { useClinicTexts } from './useClinicTexts.ts'

/** Another tab has joined a clinic or left it: what that means here, and how this one learns of it. */
export function ClinicMoved() {
  const moved = useApp((s) => s.clinicMoved)
  const { clinic, fill } = useClinicTexts()
  if (!moved) return null
  const { anew, drawing } = clinic.moved
  return (
    <BeginAnewNews drawing={drawing} button={anew}>
      <p>{fill(clinic.moved[moved.kind], { clinic: moved.clinic })}</p>
    </BeginAnewNews>
  )
}
