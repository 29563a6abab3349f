import { defined } from '../basics/defined.ts'
import { HANDLED } from '../protocol/handled.ts'
import { isCard } from '../plan/plan.ts'
import { circlesText, newbornFields } from '../record/cardFields.ts'
import { deadlineOf } from '../record/deadline.ts'
import type { DrawFacts, TubeFact } from '../record/drawFacts.ts'
import { goesUnlabelled, ownNumberOf } from '../record/labeledTubes.ts'
import { noteWords } from '../record/noteWords.ts'
import { timePointsOf } from '../record/sittingFacts.ts'
import { collectedIn, syringeOf } from '../record/syringeFacts.ts'
import { isAssumed, tubeVolume_mL } from '../record/volumeDrawn.ts'
import { isoLocal } from '../time/format.ts'
import { additiveConcept, bloodKind, handlingCode, LOCAL, quantity, takenBy, v2 } from './codes.ts'
import { benchDone, rejectedFor, wayNotes, type Done } from './specimenWay.ts'
import { siteOf } from './siteOf.ts'
import { NAME, type FhirContext } from './context.ts'
import type { Annotation, CodeableConcept, Quantity, Specimen } from './resources.ts'

/**
 * One for each tube that holds blood for the laboratory. A risk never takes one out or marks it unsatisfactory; only
 * the laboratory does.
 */
export function specimen(context: FhirContext, fact: TubeFact): Specimen {
  const { facts, head, refTo, say } = context
  const { tube, collector } = fact
  const { patient, order } = facts.opened
  const own = facts.accessions.get(tube.id)
  const way = facts.ways.get(tube.id)
  const skin = facts.punctures.find(({ number }) => number === fact.puncture)?.skin
  const requests = order.tests.flatMap((test, index) =>
    tube.tests.includes(test) ? [refTo(NAME.request(index))] : [],
  )
  return defined({
    ...head('Specimen', NAME.specimen(tube.id, facts)),
    identifier: [{ system: LOCAL.specimen, value: ownNumberOf(facts, tube.id) }],
    accessionIdentifier: own && {
      type: { coding: [v2('0203', 'ACSN', 'Accession ID')] },
      value: own.accession,
    },
    status: way?.rejected ? 'unsatisfactory' : 'available',
    receivedTime: way?.received && isoLocal(way.received.at),
    type: defined({
      coding: [bloodKind(skin)],
      text: skin && say('capillaryBlood'),
    }),
    subject: refTo(NAME.patient, patient.fullName),
    request: requests,
    collection: defined({
      extension: specialHandling(context, fact),
      collector: refTo(NAME.collector(collector.id), collector.name),
      ...collected(facts, fact),
      quantity: amount(fact),
      method: { coding: [takenBy(skin)] },
      bodySite: bodySite(context, fact),
      ...fasting(context),
    }),
    processing: processing(context, fact),
    container: [container(context, fact)],
    condition: condition(context, fact),
    note: [
      ...timeNotes(context, fact),
      ...limitNote(context, fact),
      ...cardNotes(context, fact),
      ...redrawNote(context, tube.id),
      ...wayNotes(context, tube.id),
      ...notes(context, tube.id),
    ],
  })
}

function collected(facts: DrawFacts, fact: TubeFact): Partial<Specimen['collection']> {
  const { from, to } = collectedIn(facts, fact)
  return to
    ? { collectedPeriod: { start: isoLocal(from), end: isoLocal(to) } }
    : { collectedDateTime: isoLocal(from) }
}

/** Left out when the volume is not known or only assumed, never written empty. */
function amount(fact: TubeFact): Quantity | undefined {
  const volume_mL = isAssumed(fact) ? undefined : tubeVolume_mL(fact)
  return volume_mL === undefined ? undefined : quantity(volume_mL, 'mL')
}

/** R4's own extension, with the codes of table 0376 where it has one. */
function specialHandling(
  { texts }: FhirContext,
  { tube }: TubeFact,
): Specimen['collection']['extension'] & object {
  return tube.handling.map((mark) => {
    const coding = handlingCode(mark)
    return {
      url: 'http://hl7.org/fhir/StructureDefinition/specimen-specialHandling',
      valueCodeableConcept: {
        ...(coding && { coding: [coding] }),
        text: texts.note.words.handling[mark],
      },
    }
  })
}

function bodySite({ facts, texts }: FhirContext, fact: TubeFact): CodeableConcept | undefined {
  const puncture = facts.punctures.find(({ number }) => number === fact.puncture)
  return puncture && siteOf(puncture, texts.note.words)
}

/** Table 0916 has no hours, so hours are given as a duration; its code FNA says that nobody asked. */
function fasting({ facts }: FhirContext): Partial<Specimen['collection']> {
  const { fasted_h } = facts.opened.preparation
  if (fasted_h !== undefined) return { fastingStatusDuration: quantity(fasted_h, 'h') }
  const asked = v2('0916', 'FNA', 'Fasting not asked of the patient at time of procedure.')
  return { fastingStatusCodeableConcept: { coding: [asked] } }
}

/** What was done to it, as far as it was recorded, in the order of time; what was asked for is `specialHandling`. */
function processing(context: FhirContext, fact: TubeFact): Specimen['processing'] & object {
  const { facts, say, texts } = context
  const { tube, mixed, handled, on } = fact
  const syringe_mL = syringeOf(facts, fact)?.needleSet?.syringe_mL
  const done: Done[] = [
    ...(syringe_mL === undefined ? [] : [{ what: say('transferred', { syringe_mL }), at: on }]),
    ...(mixed ? [{ what: say('mixed'), at: mixed }] : []),
    ...HANDLED.flatMap((how) => {
      const at = handled?.[how]
      return at ? [{ what: texts.note.words.handled[how], at }] : []
    }),
    ...(fact.dried ? [{ what: say('cardDried'), at: fact.dried }] : []),
    ...benchDone(context, tube.id),
  ]
  return done
    .sort((a, b) => a.at.at_ms - b.at.at_ms)
    .map(({ what, procedure, at, until }) => ({
      description: what,
      ...(procedure && { procedure: { text: procedure } }),
      ...(until
        ? { timePeriod: { start: isoLocal(at), end: isoLocal(until) } }
        : { timeDateTime: isoLocal(at) }),
    }))
}

function container({ say, texts }: FhirContext, fact: TubeFact): Specimen['container'][number] {
  const { tube } = fact
  const { lotRead } = fact
  const { lot, expires } = lotRead ?? tube
  const packet = [
    ...(lot ? [say(lotRead ? 'lot' : 'plannedLot', { lot })] : []),
    ...(expires ? [say('expires', { expires })] : []),
  ]
  return defined({
    description: packet.join(', ') || undefined,
    type: { coding: [{ system: LOCAL.tube, code: tube.tubeCode }], text: tube.name },
    capacity: tube.nominal_mL > 0 ? quantity(tube.nominal_mL, 'mL') : undefined,
    specimenQuantity: amount(fact),
    additiveCodeableConcept: additiveConcept(tube.additive, texts.record.additives[tube.additive]),
  })
}

const isSpunFact = ({ ways }: DrawFacts, { tube }: TubeFact): boolean =>
  (ways.get(tube.id)?.spins.length ?? 0) > 0

/**
 * Table 0493, as far as the record tells. It has no code for a tube filled short, so that is given in words, which an
 * extensible binding allows.
 */
function condition({ say, facts }: FhirContext, fact: TubeFact): CodeableConcept[] {
  return [
    ...(fact.handled?.ice ? [{ coding: [v2('0493', 'COOL', 'Cool')] }] : []),
    ...(isSpunFact(facts, fact) ? [{ coding: [v2('0493', 'CFU', 'Centrifuged')] }] : []),
    ...(fact.fill === 'short' && !isCard(fact.tube) ? [{ text: say('filledShort') }] : []),
    ...(goesUnlabelled(facts, fact.tube.id) ? [{ text: say('unlabelled') }] : []),
    ...rejectedFor(facts, fact.tube.id),
  ]
}

/** Until when the first test in it must be done with the tube as drawn. */
function limitNote({ say, tests }: FhirContext, fact: TubeFact): Annotation[] {
  const end = deadlineOf(fact)
  if (!end) return []
  const { timeLimit_min, timeLimitOf } = fact.tube
  const of = timeLimitOf === undefined ? fact.tube.tests : [timeLimitOf]
  const test = of.map(tests.testName).join(', ')
  const text = say('timeLimit', { test, min: timeLimit_min ?? '', until: isoLocal(end) })
  return [{ text }]
}

/** R4 has no field for the circles of a card, nor for what a screening laboratory asks of a newborn. */
function cardNotes({ facts, say, texts, tests }: FhirContext, fact: TubeFact): Annotation[] {
  if (!isCard(fact.tube)) return []
  const words = noteWords(texts.note, facts.openedAt, tests.testName)
  const circles = circlesText(facts, fact, words) ?? ''
  const told = newbornFields(facts, words)
  const { age = '', feeding = '', lastFeed = '', transfused = '' } = told
  const newborn = say('newborn', { age, feeding, lastFeed, transfused })
  return [newborn, say('circles', { circles })].map((text) => ({ text }))
}

/** Which tube it replaces: that number is not given again. */
function redrawNote({ facts, say, texts }: FhirContext, tubeId: string): Annotation[] {
  return (facts.swaps.get(tubeId) ?? []).flatMap(({ number, why }) =>
    number === undefined
      ? []
      : [{ text: say('inPlaceOf', { number, why: texts.note.words.swap[why] }) }],
  )
}

/** R4 has no field for the time point of a sample, nor for a dose: they stand in words beside its true time. */
function timeNotes({ facts, say, tests }: FhirContext, fact: TubeFact): Annotation[] {
  const points = timePointsOf(facts, fact).map(({ part, punctuality }) => {
    const { point, number, of, name } = part
    if (!punctuality) return say('timePoint', { point, number, of, name })
    const dose = facts.moments.findLast(({ moment }) => moment === 'nextDose')
    if (part.from === 'nextDose' && dose) {
      const at = isoLocal({ ...facts.openedAt, at_ms: dose.at_ms })
      return say('timePointBefore', { point, number, of, name, at })
    }
    const due = isoLocal({ ...facts.openedAt, at_ms: punctuality.due_ms })
    return say('timePointDue', { point, number, of, name, due })
  })
  const doses = (facts.opened.preparation.lastDoses ?? []).flatMap(({ test, at }) =>
    at !== undefined && fact.tube.tests.includes(test)
      ? [say('lastDose', { test: tests.testName(test), at })]
      : [],
  )
  return [...points, ...doses].map((text) => ({ text }))
}

function notes({ risks, say }: FhirContext, tubeId: string): Annotation[] {
  return risks
    .filter(({ tubeIds }) => tubeIds.includes(tubeId))
    .map(({ title, found, why, source }) => ({
      text: say('risk', { title, found, why, source }),
    }))
}
