import { fillText } from '../../core/basics/fillText.ts'
import type { Place } from '../../core/day/whatFirst.ts'
import { timeOfDay } from '../../core/time/format.ts'
import type { OffsetAt } from '../../core/time/zone.ts'
import type { DayTexts } from '../site/dayTexts.ts'
import type { DayRow, DayView } from '../view/dayViewTypes.ts'

interface Reading {
  readonly texts: DayTexts
  readonly offsetAt: OffsetAt
  /** Patients are named: only where nobody listens who must not know. */
  readonly names: boolean
}

/** Why something stands where it stands, in words. */
export function placeText(
  { reason, due_ms }: Place,
  { texts, offsetAt }: Omit<Reading, 'names'>,
): string {
  const at = due_ms === undefined ? '' : timeOfDay({ at_ms: due_ms, offset_min: offsetAt(due_ms) })
  return fillText(texts.place[reason], { at })
}

/** The list in sentences, as it is read out: how many there are, and who is next and why. */
export function readableList({ rows }: Pick<DayView, 'rows'>, reading: Reading): readonly string[] {
  const { texts, names } = reading
  const [next] = rows.filter(isStillToCall)
  if (!next) return [texts.read.nobody]
  const who = whoIs(next)
  const place = placeText(next.place, reading)
  const line = names ? texts.read.next : texts.read.nextUnnamed
  return [fillText(texts.read.count, { n: rows.length }), fillText(line, { who, place })]
}

/** Who is in the chair is not next. */
const isStillToCall = (row: DayRow): boolean => row.place.reason !== 'inChair'

const whoIs = (row: DayRow): string =>
  row.kind === 'orders' ? row.group.patient.fullName : row.sitting.patient.fullName
