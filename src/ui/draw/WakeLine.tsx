import { useApp } from '../shared/appContext.tsx'
import { useDeviceTexts } from '../shared/useDeviceTexts.ts'

/** Says that the screen may go dark during the draw, for as long as that is so. */
export function WakeLine() {
  const wake = useApp((s) => s.wake)
  const texts = useDeviceTexts().wake
  if (wake !== 'refused' && wake !== 'unavailable') return null
  return (
    <p className="wakeLine" role="status">
      <strong>{texts[wake].what}</strong> {texts[wake].advice}
    </p>
  )
}
