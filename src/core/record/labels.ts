import { orderNumbersOf } from '../order/orderParts.ts'
import { calendarDate, dayAndTime, dayMonthYear, timeOfDay } from '../time/format.ts'
import type { Additive } from '../catalogue/additives.ts'
import type { SkinPlace } from '../order/collecting.ts'
import type { Arm, Priority } from '../order/order.ts'
import type { SittingPart } from '../order/sitting.ts'
import type { Vein } from '../protocol/events.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { limit } from '../policy/policy.ts'
import { isShortFill } from '../protocol/sharedPredicates.ts'
import type { Handling } from '../catalogue/handling.ts'
import { shownText } from '../text/shownText.ts'
import { defined } from '../basics/defined.ts'
import { deadlineOf } from './deadline.ts'
import type { TubeFact } from './drawFacts.ts'
import { factsOf } from './factsOf.ts'
import { waitingHolds } from './seriesHolds.ts'
import { timePointsOf } from './sittingFacts.ts'
import { familyFirst } from '../order/patientName.ts'
import { goesUnlabelled, labeledTubes, labelIsRight, labelNumberOf } from './labeledTubes.ts'

/** Everything a label shows, as text. One for each tube that goes to the laboratory. */
export interface LabelModel {
  readonly tubeId: string
  readonly specimenNumber: string
  /** The laboratory's own label is on the tube; none is printed. */
  readonly byLaboratory: boolean
  readonly fullName: string
  /** As a label begins with it; the whole name where its parts are not known. */
  readonly family: string
  readonly given: string
  /** `14 Mar 1987`. */
  readonly birthDate: string
  readonly recordNumber: string
  readonly orderNumber: string
  readonly priority: Priority
  /** Ward or other place of the patient; empty where it is not known. */
  readonly ward: string
  /** The second number, on a band that transfusion asks for. */
  readonly bandNumber: string
  /** A test for transfusion is in the tube. */
  readonly transfusion: boolean
  /** As they were ordered, by their short names. */
  readonly tests: readonly string[]
  /** Minutes until the first of them is out of time, and when that is; `undefined` for no limit. */
  readonly limit?: { readonly min: number; readonly by: string }
  /** Where the blood is from: on culture bottles, which are told apart by it, and where it is from no vein. */
  readonly bodySite: string
  /** Which sample of a series it is, of several series each; none outside a series. */
  readonly timePoints: readonly Pick<SittingPart, 'point' | 'number' | 'of'>[]
  /** The rest of the series waits for somebody's word. */
  readonly held: boolean
  /** Local date and minute at which the tube came off, `25 Nov 2026 09:02`. */
  readonly collected: string
  /** Of the person who drew this tube. */
  readonly initials: string
  readonly tubeName: string
  /** Blood it was to be filled with, mL, where that is less than its own label says. */
  readonly fill_mL?: number
  readonly additive: Additive
  readonly handling: readonly Handling[]
  readonly short: boolean
  /** `2 of 3`, in the order drawn; a redrawn tube has the place of the lost one. */
  readonly position: number
  readonly of: number
  readonly readBack: boolean
  /** By decision the tube goes to the laboratory without a label: none is printed. */
  readonly unlabelled: boolean
  /** A practice draw: the label says so. */
  readonly invented: boolean
}

/** What a label needs beside the record: which tests transfusion does, and words for a site. */
export interface LabelWords {
  readonly isTransfusion: (testCode: string) => boolean
  /** Name of a test as a label has room for it. */
  readonly shortName: (testCode: string) => string
  readonly siteText: (arm: Arm, vein: Vein | undefined) => string
  /** Of blood that is not from a vein. */
  readonly skinText: (place: SkinPlace, side: Arm) => string
}

const NO_WORDS: LabelWords = {
  isTransfusion: () => false,
  shortName: (code) => code,
  siteText: (arm, vein) => [arm, vein ?? ''].join(' ').trim(),
  skinText: (place, side) => [place, side].join(' '),
}

/** Labels for the tubes that hold blood, in the order drawn. None can exist before its tube is filled. */
export function labelsFor(log: DrawLog, words: LabelWords = NO_WORDS): readonly LabelModel[] {
  const facts = factsOf(log)
  const { patient, order, invented } = facts.opened
  // A name from a time before such letters were refused is printed as it is, not as it looks.
  const fullName = shownText(patient.fullName)
  const { family, given } = familyFirst(patient)
  const labeled = labeledTubes(facts)
  const held = waitingHolds(facts).length > 0
  // By the place of the first in it, so that a redrawn tube changes no label that is already on another.
  const places = labeled.map(({ place }) => place).sort((a, b) => a - b)
  return labeled.map((fact) => {
    const { tube, on, off, collector, puncture, place } = fact
    const site = facts.punctures.find(({ number }) => number === puncture)
    const at = fact.pulled ?? off ?? on
    const bodySiteOf = (arm: Arm): string =>
      site?.skin
        ? words.skinText(site.skin, arm)
        : tube.role === 'culture'
          ? words.siteText(arm, site?.vein)
          : ''
    return defined({
      tubeId: tube.id,
      specimenNumber: labelNumberOf(facts, tube.id),
      byLaboratory: facts.accessions.has(tube.id),
      family: shownText(family),
      given: shownText(given),
      fullName,
      birthDate: dayMonthYear(patient.birthDate),
      recordNumber: shownText(patient.recordNumber),
      orderNumber: orderNumbersOf(order, tube.tests),
      priority: order.priority,
      ward: order.ward ?? '',
      bandNumber: order.bandNumber ?? '',
      transfusion: tube.tests.some(words.isTransfusion),
      tests: tube.tests.map(words.shortName),
      limit: limitOf(fact),
      bodySite: site?.arm ? bodySiteOf(site.arm) : '',
      timePoints: timePointsOf(facts, fact).map(({ part: { point, number, of } }) => ({
        point,
        number,
        of,
      })),
      held,
      collected: dayAndTime(at),
      initials: collector.initials,
      tubeName: tube.name,
      fill_mL: tube.planned_mL,
      additive: tube.additive,
      handling: tube.handling,
      short: isShortFill(tube, fact, limit(facts.opened.policy, 'cardCircles_n')),
      position: places.indexOf(place) + 1,
      of: labeled.length,
      readBack: labelIsRight(facts, tube.id),
      unlabelled: goesUnlabelled(facts, tube.id),
      invented,
    })
  })
}

/** `09:17`, with the day where it is another one than that of the collection. */
function limitOf(fact: TubeFact): LabelModel['limit'] {
  const end = deadlineOf(fact)
  if (!end || fact.tube.timeLimit_min === undefined) return undefined
  const day = calendarDate(end)
  const isSameDay = day === calendarDate(fact.pulled ?? fact.off ?? fact.on)
  return { min: fact.tube.timeLimit_min, by: isSameDay ? timeOfDay(end) : dayAndTime(end) }
}
