import { authorsOf } from './authors.ts'
import { base64, utf8Bytes } from './base64.ts'
import { LOCAL } from './codes.ts'
import { NAME, type FhirContext } from './context.ts'
import type { DocumentReference } from './resources.ts'

/** The chart note as plain text. */
export function documentReference(context: FhirContext): DocumentReference {
  const { facts, head, refTo, note, recorded, say } = context
  const bytes = utf8Bytes(note.text)
  const { drawId, patient } = facts.opened
  const amended = facts.addenda.length > 0
  return {
    ...head('DocumentReference', NAME.note),
    identifier: [{ system: LOCAL.draw, value: drawId }],
    status: 'current',
    docStatus: facts.closed ? (amended ? 'amended' : 'final') : 'preliminary',
    type: { text: note.title },
    subject: refTo(NAME.patient, patient.fullName),
    date: recorded,
    author: authorsOf(context),
    content: [
      {
        attachment: {
          contentType: 'text/plain; charset=utf-8',
          language: say('language'),
          data: base64(bytes),
          size: bytes.length,
          title: `${note.title} ${drawId}`,
        },
      },
    ],
  }
}
