import type { DaySitting } from '../../app/view/dayViewTypes.ts'
import { placeText } from '../../app/day/readableList.ts'
import { placeWords } from '../../core/day/placeWords.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { here, offsetHere } from '../shared/here.ts'
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
  const { patient, invented, point, name, place, tolerance_min, series, key } = sitting
  const { where, later } = sitting
  const clock = (at_ms: number): string => timeOfDay(here(at_ms))
  const who = named ? patient.fullName : day.hidden
  return (
    <li className={isFirst ? 'dayRow first' : 'dayRow'}>
      <div className="dayText">
        {isFirst && <p className="dayNext">{day.next}</p>}
        <WhoLine patient={patient} invented={invented} named={named} />
        <p>
          <span className="dayPlace">{placeText(place, { texts: day, offsetAt: offsetHere })}</span>{' '}
          <strong>{fill(day.sitting, { point, name })}</strong>{' '}
          {[
            tolerance_min !== undefined && fill(day.tolerance, { min: tolerance_min }),
            where && placeWords(where, day.where),
          ]
            .filter(Boolean)
            .join(' · ')}
        </p>
        {later.length > 0 && (
          <p className="soft">
            {fill(day.laterSittings, {
              points: later.map((each) => `${each.point}, ${clock(each.due_ms)}`).join('; '),
            })}
          </p>
        )}
      </div>
      <div className="rowOfButtons">
        <button
          type="button"
          className={isFirst ? 'button go' : 'button'}
          aria-label={fill(texts.series.startOf, { point, patient: who })}
          onClick={() => void actions.openSitting(series, key)}
        >
          {fill(texts.series.start, { point })}
        </button>
      </div>
    </li>
  )
}
