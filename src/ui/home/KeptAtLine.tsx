import { useApp } from '../shared/appContext.tsx'
import { useDeviceTexts } from '../shared/useDeviceTexts.ts'
import { useTexts } from '../shared/useTexts.ts'

/** Says that the records are kept at another address than this one, where they are not seen. */
export function KeptAtLine() {
  const keptAt = useApp((s) => s.keptAt)
  const { keptAt: texts } = useDeviceTexts()
  const { fill } = useTexts()
  if (keptAt === undefined) return null
  return (
    <div className="warnBox keptAt" role="alert">
      <p>
        <strong>{fill(texts.what, { address: keptAt })}</strong> {texts.advice}
      </p>
      <a className="button" href={keptAt}>
        {texts.go}
      </a>
    </div>
  )
}
