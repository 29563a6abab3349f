import { initialsOf } from '../../app/site/whoDraws.ts'
import type { Laboratory } from '../../core/catalogue/laboratories.ts'
import { laboratoriesOfTube } from '../../core/courier/laboratoryOfTube.ts'
import type { PackSpecimen } from '../../core/courier/packSpecimen.ts'
import { deadlines, passedAt } from '../../core/courier/transport.ts'
import { isSpun } from '../../core/protocol/handled.ts'
import { dayAndTime } from '../../core/time/format.ts'
import { useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { Tick } from '../shared/Tick.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

const HOUR_ms = 3_600_000

interface PackRowProps {
  readonly specimen: PackSpecimen
  readonly laboratory: Laboratory | undefined
  readonly isCounted: boolean
  readonly named: boolean
  readonly onToggle: () => void
}

/** One specimen of a pack, to be ticked where it is in the hand. */
export function PackRow({ specimen, laboratory, isCounted, named, onToggle }: PackRowProps) {
  const { site, testName } = useServices()
  const { texts, fill } = useCourierTexts()
  const { number, patient, tube, way } = specimen
  const others = laboratoriesOfTube(specimen, site.laboratories).filter(
    (part) => part.laboratory?.id !== laboratory?.id,
  )
  const isWhole = isSpun(tube) && way.spins.length === 0
  return (
    <tr>
      <th scope="row" className="figures">
        <Tick label={fill(texts.isHere, { number })} checked={isCounted} onChange={onToggle} />
      </th>
      <td>{named ? patient.fullName : initialsOf(patient.fullName)}</td>
      <td>{tube.name}</td>
      <td>
        {tube.tests.map(testName).join(', ')}
        {others.map((part) => (
          <p key={part.laboratory?.id ?? ''} className="packNote">
            {fill(texts.also, {
              laboratory: part.laboratory?.name ?? texts.noLaboratory,
              tests: part.tests.map(testName).join(', '),
            })}
          </p>
        ))}
      </td>
      <td>
        <TimeOf specimen={specimen} laboratory={laboratory} />
      </td>
      <td>
        {[isWhole && texts.notSpun, way.stored && texts.stored[way.stored.where]]
          .filter(Boolean)
          .join(', ')}
      </td>
    </tr>
  )
}

function TimeOf({ specimen, laboratory }: Pick<PackRowProps, 'specimen' | 'laboratory'>) {
  const { site, testName, now_ms } = useServices()
  const { texts, fill } = useCourierTexts()
  const limits = deadlines(specimen, site.catalogue)
  const [first] = limits
  if (!first) return <>{texts.noLimit}</>
  const now = now_ms()
  const at = (at_ms: number): string => dayAndTime(here(at_ms))
  const namesOf = (codes: readonly string[]): string => codes.map(testName).join(', ')
  const passed = passedAt(limits, now)
  if (passed.length > 0) {
    return (
      <p className="packOver">
        {fill(texts.passed, { at: at(first.by_ms), tests: namesOf(passed) })}
      </p>
    )
  }
  const soon = laboratory ? passedAt(limits, now + laboratory.most_h * HOUR_ms) : []
  return (
    <>
      {fill(texts.by, { at: at(first.by_ms) })}
      {soon.length > 0 && (
        <p className="packNote">
          {fill(texts.onTheWay, { at: at(first.by_ms), tests: namesOf(soon) })}
        </p>
      )}
    </>
  )
}
