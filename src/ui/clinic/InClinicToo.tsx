import { useApp } from '../shared/appContext.tsx'
import { useClinicTexts } from './useClinicTexts.ts'

/** Where something is taken off a device of a clinic: that it stays at the hub, as far as it has come there. */
export function InClinicToo() {
  const view = useApp((s) => s.clinic)
  const { clinic } = useClinicTexts()
  if (!view) return null
  // Away from the hub nobody knows how much of one record it has.
  const isAllThere = view.link === 'connected' && view.waiting_n === 0
  return (
    <>
      <p>{clinic.erase}</p>
      {!isAllThere && (
        <p className="warnBox" role="alert">
          {clinic.eraseUnsent}
        </p>
      )}
    </>
  )
}
