import { useActions, useApp } from '../shared/appContext.tsx'
import { useHandOverTexts } from './useHandOverTexts.ts'

/**
 * What was not taken of the record server's orders or has changed there, until somebody has understood it. It stands
 * above the list too: who draws does not look into the settings.
 */
export function OrdersTold() {
  const { told } = useApp((s) => s.handOver.orders)
  const { handOver } = useActions()
  const { texts } = useHandOverTexts()
  if (told.length === 0) return null
  return (
    <div className="warnBox">
      <ul>
        {told.map((line, i) => (
          <li key={i}>{line}</li>
        ))}
      </ul>
      <button type="button" className="button" onClick={() => handOver.dismissTold()}>
        {texts.orders.understood}
      </button>
    </div>
  )
}
