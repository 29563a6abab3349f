import { missingTests } from '../record/missingTests.ts'
import { LOCAL } from './codes.ts'
import { NAME, type FhirContext } from './context.ts'
import type { Task } from './resources.ts'

/**
 * One for each test of a closed draw that no tube holds, with why. The request itself stays active: whether it is
 * given up is for who ordered to say.
 */
export function tasks({ facts, head, refTo, recorded, texts }: FhirContext): Task[] {
  if (!facts.closed) return []
  const { order, patient } = facts.opened
  return missingTests(facts).map(({ test, why, reason }): Task => {
    const index = order.tests.indexOf(test)
    const words = texts.note.words.missing[why]
    return {
      ...head('Task', NAME.task(index)),
      status: 'cancelled',
      statusReason: {
        coding: [{ system: LOCAL.missing, code: why }],
        text: reason === undefined ? words : `${words}: ${reason}`,
      },
      intent: 'order',
      focus: refTo(NAME.request(index)),
      for: refTo(NAME.patient, patient.fullName),
      authoredOn: recorded,
    }
  })
}
