import { defined } from '../basics/defined.ts'
import { sittingKey } from '../order/sitting.ts'
import { isoLocal } from '../time/format.ts'
import { noteWords } from '../record/noteWords.ts'
import { waitingHolds } from '../record/seriesHolds.ts'
import { LOCAL, v2 } from './codes.ts'
import { NAME, type FhirContext } from './context.ts'
import type { Task } from './resources.ts'

/**
 * One for each later sample of the series that something told in this draw is about: it waits (`on-hold`), was let go
 * on (`ready`) or will not be drawn (`cancelled`), each with why. Its request is written with its own draw.
 */
export function sittingTasks(context: FhirContext): Task[] {
  const { facts, head, numberOf, refTo, texts, tests } = context
  const { order, patient, sitting } = facts.opened
  const words = noteWords(texts.note, facts.openedAt, tests.testName)
  const held = waitingHolds(facts)
  return (sitting?.later ?? []).flatMap((part): Task[] => {
    const key = sittingKey(part)
    const out = facts.leftOut.find(({ sittings }) => sittings.some((s) => sittingKey(s) === key))
    const [on] = facts.wentOn.slice(-1)
    const holds = held.length > 0 ? held : (on?.holds ?? [])
    if (!out && holds.length === 0) return []
    const after = [...new Set(holds.map(({ why }) => why))]
    const afterText = after.map((why) => words.word('hold', why)).join(', ')
    const text = out
      ? out.why
      : held.length > 0 || !on
        ? afterText
        : words.say('sitting', 'wentOn', { after: afterText, by: on.by, why: on.why })
    const number = String(part.number)
    const told = out ?? (held.length > 0 ? undefined : on)
    return [
      {
        ...head('Task', NAME.sitting(key)),
        identifier: numberOf(NAME.sitting(key)),
        groupIdentifier: {
          type: { coding: [v2('0203', 'PLAC', 'Placer Identifier')] },
          system: LOCAL.order,
          value: order.orderNumber,
        },
        status: out ? 'cancelled' : held.length > 0 ? 'on-hold' : 'ready',
        statusReason: defined({
          coding: out ? undefined : after.map((code) => ({ system: LOCAL.exception, code })),
          text,
        }),
        intent: 'order',
        code: {
          coding: part.tests.map((code) => ({ system: LOCAL.test, code })),
          text: words.say('sitting', 'part', { name: part.point, number, of: String(part.of) }),
        },
        for: refTo(NAME.patient, patient.fullName),
        authoredOn: isoLocal(told?.at ?? facts.closed?.at ?? facts.recordedAt),
      },
    ]
  })
}
