import { isoLocal } from '../time/format.ts'
import { missingTests } from '../record/missingTests.ts'
import { missingText } from '../record/missingText.ts'
import { noteWords } from '../record/noteWords.ts'
import { LOCAL } from './codes.ts'
import { NAME, type FhirContext } from './context.ts'
import type { Task } from './resources.ts'

/**
 * One for each test of a closed draw that no tube holds, with why. The request itself stays active: whether it is
 * given up is for who ordered to say.
 */
export function tasks({ facts, head, numberOf, refTo, texts, tests }: FhirContext): Task[] {
  if (!facts.closed) return []
  const authoredOn = isoLocal(facts.closed.at)
  const { order, patient } = facts.opened
  const words = noteWords(texts.note, facts.openedAt, tests.testName)
  return missingTests(facts).map((missing): Task => {
    const { test, why, reason } = missing
    const index = order.tests.indexOf(test)
    const text = missingText(missing, words)
    return {
      ...head('Task', NAME.task(index)),
      identifier: numberOf(NAME.task(index)),
      status: 'cancelled',
      statusReason: {
        coding: [{ system: LOCAL.missing, code: why }],
        text: reason === undefined ? text : `${text}: ${words.orOwn('endReason', reason)}`,
      },
      intent: 'order',
      focus: refTo(NAME.request(index)),
      for: refTo(NAME.patient, patient.fullName),
      authoredOn,
    }
  })
}
