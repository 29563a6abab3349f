import { initialsOf } from '../../app/site/whoDraws.ts'
import type { CarriedSpecimen, WayLimit } from '../../core/courier/onTheWay.ts'
import { dayAndTime } from '../../core/time/format.ts'
import { useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { Tick } from '../shared/Tick.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

interface CarriedRowProps {
  readonly carried: CarriedSpecimen
  readonly isWith: boolean
  readonly named: boolean
  readonly onToggle: () => void
}

/** One tube on the way: every time by which it must be there, and what would be too late, in words. */
export function CarriedRow({ carried, isWith, named, onToggle }: CarriedRowProps) {
  const { testName } = useServices()
  const { texts, fill, packName } = useCourierTexts()
  const { carried: t } = texts
  const { specimen, pack, limits, passed, late } = carried
  const { number, patient, tube } = specimen
  const testOf = ({ test }: WayLimit): string => (test === undefined ? '' : testName(test))
  const namesOf = (of: readonly WayLimit[]): string =>
    of.map((each) => (each.of === 'test' ? testOf(each) : t.what[each.of])).join(', ')
  return (
    <tr>
      <th scope="row" className="figures">
        <Tick label={fill(t.isWith, { number })} checked={isWith} onChange={onToggle} />
      </th>
      <td>{named ? patient.fullName : initialsOf(patient.fullName)}</td>
      <td>{tube.name}</td>
      <td>
        {limits.length === 0 && t.noLimit}
        {limits.map((each) => (
          <p key={`${each.of} ${each.test ?? ''}`}>
            {fill(t.limits[each.of], { at: dayAndTime(here(each.at_ms)), test: testOf(each) })}
          </p>
        ))}
        {passed.length > 0 && (
          <p className="packOver">{fill(t.passed, { what: namesOf(passed) })}</p>
        )}
        {late.length > 0 && <p className="packOver">{fill(t.late, { what: namesOf(late) })}</p>}
      </td>
      <td>{packName(pack)}</td>
    </tr>
  )
}
