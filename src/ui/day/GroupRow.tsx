import { placeText } from '../../app/day/readableList.ts'
import type { DayGroup } from '../../core/day/dayList.ts'
import { placeWords } from '../../core/day/placeWords.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { useServices } from '../shared/appContext.tsx'
import { here, offsetHere } from '../shared/here.ts'
import { useTexts } from '../shared/useTexts.ts'
import { GroupActs } from './GroupActs.tsx'
import { GroupNotices } from './GroupNotices.tsx'
import { useChairElsewhere } from './useChairElsewhere.ts'
import { WhoLine } from './WhoLine.tsx'

interface GroupRowProps {
  readonly group: DayGroup
  readonly named: boolean
  readonly isFirst: boolean
  readonly isDone: boolean
}

/** Orders that share a draw: who, how they stand, why they stand here, and what can be done. */
export function GroupRow({ group, named, isFirst, isDone }: GroupRowProps) {
  const { day, clinic } = useServices().site.texts
  const { texts, fill } = useTexts()
  const { testName } = useServices()
  const { patient, invented, items, status, place, fasting, priority } = group
  const clock = (at_ms: number): string => timeOfDay(here(at_ms))
  const device = useChairElsewhere()(group)
  const [first] = items
  if (!first) return null
  const { due, place: where, laboratory } = first.order
  const { until_ms, why } = first.item
  const numbers = [...new Set(items.map(({ order }) => order.order.orderNumber))].filter(Boolean)
  const tests = [...new Set(items.flatMap(({ order }) => order.order.tests))]
  const saysWhen = !isDone && place.due_ms !== undefined && place.due_ms === due?.at_ms
  const facts = [
    due && !saysWhen && fill(day.due, { time: clock(due.at_ms) }),
    due?.tolerance_min !== undefined && fill(day.tolerance, { min: due.tolerance_min }),
    priority !== 'routine' && texts.order.priorities[priority],
    fasting && day.fasting,
    where && placeWords(where, day.where),
    laboratory,
    status === 'putOff' &&
      until_ms !== undefined &&
      fill(day.putOffUntil, { time: clock(until_ms) }),
  ].filter((text) => typeof text === 'string')
  return (
    <li className={isFirst ? 'dayRow first' : 'dayRow'}>
      <div className="dayText">
        {isFirst && <p className="dayNext">{day.next}</p>}
        <WhoLine patient={patient} invented={invented} named={named} />
        <p>
          <span className={`dayStatus ${status}`}>{day.status[status]}</span>{' '}
          {device !== undefined && <span>{fill(clinic.others.on, { device })}</span>}{' '}
          {!isDone && (
            <span className="dayPlace">
              {placeText(place, { texts: day, offsetAt: offsetHere })}
            </span>
          )}{' '}
          {facts.join(' · ')}
        </p>
        <p className="soft figures">
          {numbers.join(', ')} {tests.map(testName).join(', ')}
        </p>
        {why !== undefined && why !== '' && <p>{fill(day.because, { why })}</p>}
        <GroupNotices group={group} named={named} />
      </div>
      <GroupActs group={group} named={named} isFirst={isFirst} />
    </li>
  )
}
