import { fillText } from '../basics/fillText.ts'
import type { RejectReason } from '../protocol/benchEvents.ts'
import type { DrawFacts } from '../record/drawFacts.ts'
import { isoLocal } from '../time/format.ts'
import type { Stamp } from '../time/stamp.ts'
import { v2 } from './codes.ts'
import type { FhirContext } from './context.ts'
import type { Annotation, CodeableConcept, Coding } from './resources.ts'

/** One step of a specimen's processing. */
export interface Done {
  readonly what: string
  /** What it is called, where `what` says more. */
  readonly procedure?: string
  readonly at: Stamp
  readonly until?: Stamp
}

/** What was done to it after the draw. */
export function benchDone({ facts, say, texts }: FhirContext, tubeId: string): readonly Done[] {
  const way = facts.ways.get(tubeId)
  if (!way) return []
  const { spins, separated, aliquots, stored } = way
  const { words } = texts.note
  return [
    ...spins.map(({ started, ended, g, spin_min, temperature }): Done => {
      const procedure = say('spun')
      const setting = [
        ...(g === undefined ? [] : [fillText(words.spin.force, { g })]),
        ...(spin_min === undefined ? [] : [fillText(words.spin.minutes, { min: spin_min })]),
        ...(temperature ? [words.spin[temperature]] : []),
      ].join(', ')
      const what = setting === '' ? procedure : say('spunAt', { setting })
      return { what, procedure, at: started, ...(ended && { until: ended }) }
    }),
    ...(separated ? [{ what: say('separated'), at: separated }] : []),
    ...(aliquots ? [{ what: say('aliquoted', { n: aliquots.portions }), at: aliquots.at }] : []),
    ...(stored
      ? [{ what: say('stored', { where: words.place[stored.where] }), at: stored.at }]
      : []),
  ]
}

/** Displays of table 0490, which has every reason that we keep. */
const REASONS: Readonly<Record<RejectReason, string>> = {
  EX: 'Expired',
  QS: 'Quantity not sufficient',
  RA: 'Missing patient ID number',
  RB: 'Broken container',
  RC: 'Clotting',
  RD: 'Missing collection date',
  RE: 'Missing patient name',
  RH: 'Hemolysis',
  RI: 'Identification problem',
  RM: 'Labeling',
  RN: 'Contamination',
  RP: 'Missing phlebotomist ID',
  RR: 'Improper storage',
  RS: 'Name misspelling',
}

/** Why a laboratory turned a specimen down, as table 0490 codes it. */
export const rejectReason = (reason: RejectReason): Coding => v2('0490', reason, REASONS[reason])

/** Why the laboratory turned it down: R4 has no element for it, and the binding of `condition` is extensible. */
export function rejectedFor({ ways }: DrawFacts, tubeId: string): readonly CodeableConcept[] {
  const reason = ways.get(tubeId)?.rejected?.reason
  return reason ? [{ coding: [rejectReason(reason)] }] : []
}

/** R4 has no field for the way to the laboratory. */
export function wayNotes({ facts, say, texts }: FhirContext, tubeId: string): Annotation[] {
  const { sent, dropped, rejected } = facts.ways.get(tubeId) ?? {}
  const listed = (...parts: readonly (string | undefined)[]): string =>
    parts.filter(Boolean).join(', ')
  return [
    ...(sent
      ? [
          {
            time: isoLocal(sent.at),
            text: listed(say('sent'), sent.courier, sent.pack, sent.laboratory),
          },
        ]
      : []),
    ...(dropped
      ? [{ time: isoLocal(dropped.at), text: listed(say('dropped'), dropped.to, dropped.by) }]
      : []),
    ...(rejected
      ? [
          {
            time: isoLocal(rejected.at),
            text: listed(
              say('rejected'),
              texts.note.words.rejected[rejected.reason],
              rejected.note,
            ),
          },
        ]
      : []),
  ]
}
