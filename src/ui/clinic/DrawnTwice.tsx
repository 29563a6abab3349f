import { useActions, useApp } from '../shared/appContext.tsx'
import { useClinicTexts } from './useClinicTexts.ts'

/** Orders that two devices drew while neither could ask the other: told above the list until somebody has seen it. */
export function DrawnTwice() {
  const doubled = useApp((s) => s.day.doubled)
  const actions = useActions()
  const { clinic, fill } = useClinicTexts()
  if (doubled.length === 0) return null
  return (
    <div className="warnBox" role="alert">
      {doubled.map(({ order, orderNumber, drawIds }) => (
        <div key={order}>
          <p>
            {fill(clinic.others.doubled, {
              order: orderNumber,
              first: drawIds[0],
              second: drawIds[1],
            })}
          </p>
          {drawIds.map((drawId) => (
            <button
              key={drawId}
              type="button"
              className="button quiet"
              onClick={() => void actions.go({ name: 'chart', drawId })}
            >
              {fill(clinic.others.lookAt, { draw: drawId })}
            </button>
          ))}
        </div>
      ))}
    </div>
  )
}
