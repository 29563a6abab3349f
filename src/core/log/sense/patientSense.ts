import { calendarDate, dayMonthYear } from '../../time/format.ts'
import type { DrawLog } from '../../protocol/entry.ts'
import { birthDateFault } from '../../order/birthDate.ts'
import { isMadeOf } from '../../order/patientName.ts'
import { readText, type TextUse } from '../../text/readText.ts'
import { codeOf } from '../../text/textFaultSentence.ts'
import { quoted } from '../../text/shownText.ts'
import { logFault, type LogFault } from '../fault.ts'

/** A draw may be opened east of where the birth date was written. */
const DAY_ms = 86_400_000

/** Who the log says was in the chair: texts that a person can read, and a birth date that was a day before the draw. */
export function patientFault({ entries: [first] }: DrawLog): LogFault | undefined {
  if (first?.event.type !== 'drawOpened') return undefined
  const { patient, order, invented, sitting } = first.event
  if (sitting?.practice && !invented) return logFault('practiceWaits', 1)
  const texts: readonly (readonly [string, string, TextUse])[] = [
    ['patient.fullName', patient.fullName, 'name'],
    ['patient.familyName', patient.familyName ?? '', 'name'],
    ['patient.givenNames', patient.givenNames ?? '', 'name'],
    ['patient.recordNumber', patient.recordNumber, 'identifier'],
    ['order.orderNumber', order.orderNumber, 'identifier'],
    ['order.provider', order.provider ?? '', 'name'],
  ]
  for (const [path, text, use] of texts) {
    const read = readText(text, use)
    const [fault] = read.ok ? [] : read.faults
    if (!fault) continue
    const what = 'codePoint' in fault ? `U+${codeOf(fault.codePoint)}` : quoted(text)
    return logFault('unreadableText', 1, { path, what })
  }
  const { birthDate, fullName, familyName = '', givenNames = '' } = patient
  if (!isMadeOf(fullName, { familyName, givenNames })) {
    // A label prints the parts and the patient is asked for the whole: they must not name two people.
    const parts = quoted(`${familyName}, ${givenNames}`)
    return logFault('nameParts', 1, { name: quoted(fullName), parts })
  }
  const tomorrow = calendarDate({ ...first.at, at_ms: first.at.at_ms + DAY_ms })
  const born = birthDateFault(birthDate, tomorrow)
  const day = born === 'notADay' ? quoted(birthDate) : dayMonthYear(birthDate)
  return born && logFault(BORN[born], 1, { day })
}

const BORN = { notADay: 'noSuchDay', inFuture: 'bornLater', tooLongAgo: 'bornTooEarly' } as const
