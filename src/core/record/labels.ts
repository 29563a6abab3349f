import type { Additive } from '../catalogue/additives.ts'
import type { DrawLog } from '../protocol/entry.ts'
import type { Handling } from '../catalogue/handling.ts'
import { calendarDate, clockTime, dayMonthYear } from '../time/format.ts'
import { shownText } from '../text/shownText.ts'
import { factsOf } from './factsOf.ts'
import { familyFirst } from '../order/patientName.ts'
import { fitFamilyFirst } from './fitName.ts'
import { labeledTubes, labelIsRight, labelNumberOf } from './labeledTubes.ts'

/** Characters that a line of 10 pt bold type holds across the 2 inch label. */
export const NAME_WIDTH = 26

/** Everything a label shows, as text. One for each tube that goes to the laboratory. */
export interface LabelModel {
  readonly tubeId: string
  readonly specimenNumber: string
  /** The laboratory's own label is on the tube; none is printed. */
  readonly byLaboratory: boolean
  readonly nameLines: readonly string[]
  readonly nameShortened: boolean
  readonly fullName: string
  /** `14 Mar 1987`. */
  readonly birthDate: string
  readonly recordNumber: string
  readonly orderNumber: string
  /** Local date and minute at which the tube came off, `25 Nov 2026 09:02`. */
  readonly collected: string
  /** Of the person who drew this tube. */
  readonly initials: string
  readonly tubeName: string
  readonly additive: Additive
  readonly handling: readonly Handling[]
  readonly short: boolean
  /** `2 of 3`, in the order drawn. */
  readonly position: number
  readonly of: number
  readonly readBack: boolean
  /** A practice draw: the label says so. */
  readonly invented: boolean
}

/** Labels for the tubes that hold blood, in the order drawn. None can exist before its tube is filled. */
export function labelsFor(log: DrawLog): readonly LabelModel[] {
  const facts = factsOf(log)
  const { patient, order, invented } = facts.opened
  // A name from a time before such letters were refused is printed as it is, not as it looks.
  const fullName = shownText(patient.fullName)
  const { family, given } = familyFirst(patient)
  const shown = { family: shownText(family), given: shownText(given) }
  const name = fitFamilyFirst(shown, NAME_WIDTH)
  const labeled = labeledTubes(facts)
  return labeled.map(({ tube, on, off, fill, collector }, index) => {
    const at = off ?? on
    return {
      tubeId: tube.id,
      specimenNumber: labelNumberOf(facts, tube.id),
      byLaboratory: facts.accessions.has(tube.id),
      nameLines: name.lines,
      nameShortened: name.shortened,
      fullName,
      birthDate: dayMonthYear(patient.birthDate),
      recordNumber: shownText(patient.recordNumber),
      orderNumber: order.orderNumber,
      collected: `${dayMonthYear(calendarDate(at))} ${clockTime(at).slice(0, 5)}`,
      initials: collector.initials,
      tubeName: tube.name,
      additive: tube.additive,
      handling: tube.handling,
      short: fill === 'short',
      position: index + 1,
      of: labeled.length,
      readBack: labelIsRight(facts, tube.id),
      invented,
    }
  })
}
