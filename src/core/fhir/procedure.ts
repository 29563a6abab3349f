import { languageName } from '../basics/languageName.ts'
import { defined } from '../basics/defined.ts'
import type { ExceptionKind } from '../protocol/exceptions.ts'
import type { PunctureFact } from '../record/drawFacts.ts'
import { isoLocal } from '../time/format.ts'
import type { Stamp } from '../time/stamp.ts'
import { LOCAL, takenBy } from './codes.ts'
import { noteWords } from '../record/noteWords.ts'
import type { NoteScope } from '../record/noteTemplate.ts'
import { setText } from '../record/setText.ts'
import { siteOf } from './siteOf.ts'
import { orderContext } from './orderContext.ts'
import { recollectionOf } from './recollectionOf.ts'
import { NAME, type FhirContext } from './context.ts'
import type { CodeableConcept, Procedure } from './resources.ts'

/**
 * The venipuncture itself. R4 has no element for the tourniquet, attempts or the needle: they stand as notes, in the
 * words of the chart note.
 */
export function procedure(context: FhirContext): Procedure {
  const { facts, head, refTo, note, say, texts, tests } = context
  const { drawId, patient, order, recollects } = facts.opened
  const words = noteWords(texts.note, facts.openedAt, tests.testName)
  const reason = facts.closed && facts.endReason && words.orOwn('endReason', facts.endReason)
  const skin = facts.wentToVein ? undefined : facts.opened.collecting
  const punctures = ofThis(facts)
  const { encounter, location } = orderContext(facts)
  const language = facts.aftercareLanguage ? [languageName(facts.aftercareLanguage, 'en')] : []
  return defined({
    ...head('Procedure', NAME.procedure),
    identifier: [{ system: LOCAL.draw, value: drawId }],
    basedOn: (order.tests.length > 0 ? order.tests : ['']).map((_test, index) =>
      refTo(NAME.request(index)),
    ),
    status: status(context),
    statusReason: reason ? { text: reason } : undefined,
    code: {
      coding: [takenBy(skin)],
      text: say(skin ? 'capillary' : 'venipuncture'),
    },
    subject: refTo(NAME.patient, patient.fullName),
    encounter,
    location,
    performedPeriod: performedPeriod(punctures),
    performer: performers(context),
    // Also where the request is the site's own, and is only named.
    reasonCode: recollects && [recollectionOf(recollects)],
    bodySite: punctures.flatMap((puncture) => siteOf(puncture, context.texts.note.words) ?? []),
    complication: complications(context),
    followUp: facts.aftercare
      ? [{ text: [say('aftercare', { at: isoLocal(facts.aftercare) }), ...language].join(', ') }]
      : [],
    usedCode: needles(context),
    note: note.sections
      .filter(({ each }) => !ELSEWHERE.has(each))
      .map(({ title, lines }) => {
        const text = lines.map(({ label, value }) => (label ? `${label}: ${value}` : value))
        return { text: `${title}. ${text.join('. ')}` }
      }),
  })
}

/** The punctures that the draw's own procedure tells: from the vein alone, where it went on from the skin. */
const ofThis = ({ punctures, wentToVein }: FhirContext['facts']): readonly PunctureFact[] =>
  wentToVein ? punctures.filter(({ skin }) => skin === undefined) : punctures

/** The skin puncture of a draw that went on from a vein: another place, time and code, and part of the draw. */
export function skinProcedures({ facts, head, refTo, say, texts }: FhirContext): Procedure[] {
  const punctures = facts.punctures.filter(({ skin }) => skin !== undefined)
  const isPierced = punctures.some(({ needleIn }) => needleIn.length > 0)
  if (!facts.wentToVein || punctures.length === 0) return []
  const { drawId, patient, collecting } = facts.opened
  return [
    defined({
      ...head('Procedure', NAME.skinProcedure),
      identifier: [{ system: LOCAL.draw, value: `${drawId}/skin` }],
      partOf: [refTo(NAME.procedure)],
      status: isPierced ? ('completed' as const) : ('not-done' as const),
      code: { coding: [takenBy(collecting)], text: say('capillary') },
      subject: refTo(NAME.patient, patient.fullName),
      performedPeriod: performedPeriod(punctures),
      performer: punctures.slice(0, 1).map(({ collector: { id, name } }) => ({
        actor: refTo(NAME.collector(id), name),
      })),
      bodySite: punctures.flatMap((puncture) => siteOf(puncture, texts.note.words) ?? []),
    }),
  ]
}

/** Specimens, tasks and the notes of specimens hold these already. */
const ELSEWHERE: ReadonlySet<NoteScope> = new Set(['tube', 'missing', 'risk'])

/** Each needle that went in, by kind, gauge, wall and the syringe it was on. */
function needles({ facts, texts }: FhirContext): CodeableConcept[] {
  const words = noteWords(texts.note, facts.openedAt, (code) => code)
  return facts.punctures.flatMap(({ needleIn, needleSet: set, setIsNamed }) =>
    set && needleIn.length > 0
      ? [
          {
            coding: [
              {
                system: LOCAL.needle,
                code: [
                  set.kind,
                  `${set.gauge}G`,
                  ...(set.wall ? [set.wall] : []),
                  ...(set.syringe_mL ? [`syringe${set.syringe_mL}mL`] : []),
                ].join('-'),
              },
            ],
            text: setText(set, words, setIsNamed),
          },
        ]
      : [],
  )
}

/** No blood and no needle is `not-done`; a needle that had to come out early is `stopped`. */
function status({ facts }: FhirContext): Procedure['status'] {
  switch (facts.closed?.outcome) {
    case undefined:
      return 'in-progress'
    case 'complete':
    case 'partial':
      return 'completed'
    case 'stopped':
      return facts.punctures.some(({ needleIn }) => needleIn.length > 0) ? 'stopped' : 'not-done'
    case 'notDrawn':
      return 'not-done'
  }
}

/** From the first needle in to the last needle out; without a needle there is none. */
function performedPeriod(punctures: readonly PunctureFact[]): Procedure['performedPeriod'] {
  const start = punctures.flatMap(({ needleIn }) => needleIn)[0]
  const last = punctures.findLast(endOf)
  const end = last && endOf(last)
  if (!start) return undefined
  return defined({ start: isoLocal(start), end: end && isoLocal(end) })
}

/** The needle came out, or gauze first went on the lanced place: later pressings are of one that bled again. */
const endOf = ({ needleOut, pressedBefore, pressureOn, skin }: PunctureFact): Stamp | undefined =>
  skin ? (pressedBefore?.[0]?.from ?? pressureOn) : needleOut

function performers({ facts, refTo }: FhirContext): Procedure['performer'] {
  const people = new Map(facts.collectors.map(({ collector }) => [collector.id, collector]))
  return [...people.values()].map(({ id, name }) => ({ actor: refTo(NAME.collector(id), name) }))
}

/** What befell the patient. A lost tube or a pause is none, and a collector's needlestick is not the patient's. */
const COMPLICATIONS: ReadonlySet<ExceptionKind> = new Set([
  'swelling',
  'brightBlood',
  'sharpPain',
  'faint',
  'nausea',
  'bleedingContinues',
])

/** In the words of the note, each with its time. */
function complications({ facts, texts }: FhirContext): CodeableConcept[] {
  const befell = facts.exceptions.filter(({ kind }) => COMPLICATIONS.has(kind))
  return befell.map(({ kind, at, note }) => ({
    coding: [{ system: LOCAL.exception, code: kind }],
    text: [texts.note.exceptions[kind], isoLocal(at), ...(note ? [note] : [])].join(', '),
  }))
}
