import type { Place, PlaceReason } from '../../core/day/whatFirst.ts'
import type { DayRow } from '../view/dayViewTypes.ts'
import type { NextKind, NextRead } from './betweenActs.ts'

const KINDS: Readonly<Partial<Record<PlaceReason, NextKind>>> = {
  stat: 'stat',
  timedNow: 'timed',
  timedLate: 'timed',
  fasting: 'fasting',
  appointment: 'booked',
}

/** Who is next as it is told aloud: by which recording, and in words where names may be read. */
const nextRead = (
  place: Pick<Place, 'reason'>,
  name: string,
  where: string | undefined,
): NextRead => ({
  kind: KINDS[place.reason] ?? 'plain',
  read: where === undefined ? name : `${name}, ${where}`,
})

/** Of a row of the list. */
export function nextReadOf(row: DayRow): NextRead {
  if (row.kind === 'sitting') return nextRead(row.place, row.sitting.patient.fullName, undefined)
  const { place, patient, items } = row.group
  return nextRead(place, patient.fullName, items[0]?.order.place?.text)
}

/** Nobody waits to be called who is in the chair, was called, was put off, or is not due yet. */
export const mayBeCalled = ({ place }: DayRow): boolean =>
  !['inChair', 'called', 'putOff', 'notYet'].includes(place.reason)
