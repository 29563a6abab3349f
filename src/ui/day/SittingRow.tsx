import type { DaySitting } from '../../app/view/dayViewTypes.ts'
import { placeText } from '../../app/day/readableList.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { useTexts } from '../shared/useTexts.ts'
import { WhoLine } from './WhoLine.tsx'

interface SittingRowProps {
  readonly sitting: DaySitting
  readonly named: boolean
  readonly isFirst: boolean
}

/** The next draw of a series, as a draw of its own. */
export function SittingRow({ sitting, named, isFirst }: SittingRowProps) {
  const actions = useActions()
  const { day } = useServices().site.texts
  const { texts, fill } = useTexts()
  const { offset_min } = here(useApp((s) => s.day.now_ms))
  const { patient, invented, point, name, place, tolerance_min, series, key } = sitting
  const who = named ? patient.fullName : day.hidden
  return (
    <li className={isFirst ? 'dayRow first' : 'dayRow'}>
      <WhoLine patient={patient} invented={invented} named={named} />
      <p>
        <strong>{fill(day.sitting, { point, name })}</strong>{' '}
        {tolerance_min !== undefined && fill(day.tolerance, { min: tolerance_min })}
      </p>
      <p className="dayPlace">{placeText(place, { texts: day, offset_min })}</p>
      <button
        type="button"
        className={isFirst ? 'button go' : 'button'}
        aria-label={fill(texts.series.startOf, { point, patient: who })}
        onClick={() => void actions.openSitting(series, key)}
      >
        {fill(texts.series.start, { point })}
      </button>
    </li>
  )
}
