import type { DayGroup, DayItem } from '../../core/day/dayList.ts'
import { NOT_DRAWN } from '../../core/day/recollection.ts'
import { ownValue } from '../../core/basics/ownValue.ts'
import { isToDo } from '../../core/day/orderStatus.ts'
import { dayAndTime, dayMonthYear } from '../../core/time/format.ts'
import { useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { useTexts } from '../shared/useTexts.ts'

interface GroupNoticesProps {
  readonly group: DayGroup
  readonly named: boolean
}

/** What has to be known of these orders before anybody is called, each in a sentence. */
export function GroupNotices({ group, named }: GroupNoticesProps) {
  const { day } = useServices().site.texts
  const { fill } = useTexts()
  const { items, apart, twice, alike } = group
  const numbers = items.map(({ order }) => order.order.orderNumber).join(', ')
  const questions = items.reduce((n, { order }) => n + order.questions.length, 0)
  const notes = [
    items.length > 1 && fill(day.together, { n: items.length, numbers }),
    ...apart.map(({ order, why }) =>
      fill(day.apart, { number: order.order.orderNumber, why: day.apartWhy[why] }),
    ),
    questions > 0 && fill(day.questions, { n: questions }),
  ].filter((text) => typeof text === 'string')
  const meanwhileText = ({ standing, since, by, why }: Meanwhile): string =>
    fill(standing === 'refused' ? day.refusedMeanwhile : day.cancelledMeanwhile, {
      at: dayAndTime(since),
      by: by ?? '',
      why: why ?? '',
    })
  const warnings = [
    ...items.flatMap(({ status: { meanwhile } }) => (meanwhile ? [meanwhileText(meanwhile)] : [])),
    ...twice.map(({ order, status, since_ms, isOther }) => {
      const { orderNumber: number } = order.order
      if (isOther) {
        const { fullName, birthDate } = order.patient
        const name = named ? fullName : day.hidden
        return fill(day.twiceOther, { number, name, born: dayMonthYear(birthDate) })
      }
      if (isToDo(status) || status === 'inChair') return fill(day.twice, { number })
      const at = dayAndTime(here(since_ms))
      return fill(day.twiceDone, { number, status: day.status[status], at })
    }),
    ...alike.map(({ patient, likeness }) => {
      const name = named ? patient.fullName : day.hidden
      const born = dayMonthYear(patient.birthDate)
      return fill(day.alike, { name, born, how: day.likeness[likeness] })
    }),
    items.some(isChanged) && day.changed,
  ].filter((text) => typeof text === 'string')
  return (
    <>
      {items.map((item) => (
        <Lack key={item.order.id} item={item} />
      ))}
      {notes.map((text, i) => (
        <p key={i}>{text}</p>
      ))}
      {[...new Set(warnings)].map((text, i) => (
        <p key={i} className="warnBox">
          {text}
        </p>
      ))}
    </>
  )
}

type Meanwhile = NonNullable<DayItem['status']['meanwhile']>

/** Changed while its draw was open. */
const isChanged = ({ item: { changed }, status }: DayItem): boolean =>
  status.status === 'inChair' && changed !== undefined && changed.at_ms > status.since_ms

/** What it is a recollection of, and what its draw did not give. */
function Lack({ item }: { readonly item: DayItem }) {
  const { site, testName } = useServices()
  const { fill } = useTexts()
  const { day } = site.texts
  const { recollects } = item.order
  const { missing, rejected } = item.status
  const named = (reason: string): string =>
    reason === NOT_DRAWN
      ? day.notDrawn
      : (ownValue(site.texts.note.words.rejected, reason) ?? reason)
  const names = (tests: readonly string[]): string => tests.map(testName).join(', ')
  return (
    <>
      {recollects && (
        <p>
          {fill(day.recollects, {
            drawId: recollects.drawId,
            why: [named(recollects.reason), recollects.note].filter(Boolean).join(', '),
          })}
        </p>
      )}
      {missing.length > 0 && (
        <p>{fill(day.missing, { tests: names(missing.map(({ test }) => test)) })}</p>
      )}
      {rejected.map((tube) => (
        <p key={tube.tubeId}>
          {fill(day.rejected, {
            tests: names(tube.tests),
            why: named(tube.rejected?.reason ?? ''),
          })}
        </p>
      ))}
    </>
  )
}
