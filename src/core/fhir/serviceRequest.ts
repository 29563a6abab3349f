import { defined } from '../basics/defined.ts'
import { dueOf_ms } from '../series/due.ts'
import { isoLocal } from '../time/format.ts'
import { partsWith } from '../order/orderParts.ts'
import { LOCAL, v2 } from './codes.ts'
import { orderContext, requesterOf } from './orderContext.ts'
import { NAME, type FhirContext } from './context.ts'
import { recollectionOf } from './recollectionOf.ts'
import type { ServiceRequest } from './resources.ts'

/**
 * One for each test, held together by the order number as requisition. They stay `active`: whether an order is
 * completed is for the laboratory to say.
 */
export function serviceRequests(context: FhirContext): ServiceRequest[] {
  const { facts, head, numberOf, refTo, specimens, tests: info } = context
  const { order, patient, recollects } = facts.opened
  const { requester, authoredOn, encounter, location } = orderContext(facts)
  const placer = { coding: [v2('0203', 'PLAC', 'Placer Identifier')] }
  const tests: readonly (string | undefined)[] = order.tests.length > 0 ? order.tests : [undefined]
  return tests.map((test, index) => {
    const [part] = test === undefined ? [] : partsWith(order, test)
    const { orderNumber, priority } = part ?? order
    const serving = specimens.filter(({ tube }) => test !== undefined && tube.tests.includes(test))
    return defined({
      ...head('ServiceRequest', NAME.request(index)),
      identifier: numberOf(NAME.request(index)),
      requisition: orderNumber
        ? { type: placer, system: LOCAL.order, value: orderNumber }
        : undefined,
      status: 'active',
      intent: 'order',
      priority,
      code:
        test === undefined
          ? undefined
          : {
              coding: [{ system: LOCAL.test, code: test }, ...info.codings(test)],
              text: info.testName(test),
            },
      subject: refTo(NAME.patient, patient.fullName),
      requester: (part && requesterOf(part)) ?? requester,
      authoredOn,
      encounter,
      locationReference: location && [location],
      reasonCode: recollects && [recollectionOf(recollects)],
      occurrenceDateTime: dueOf(context, test),
      specimen: serving.map(({ tube }) => refTo(NAME.specimen(tube.id, facts))),
    })
  })
}

/** When a sample of a series was to be drawn, as far as the moment it is counted from was told. */
function dueOf({ facts }: FhirContext, test: string | undefined): string | undefined {
  const part = facts.opened.sitting?.parts.find(({ tests }) => tests.some((code) => code === test))
  const due_ms = part && dueOf_ms(part, facts.moments)
  return due_ms === undefined ? undefined : isoLocal({ ...facts.openedAt, at_ms: due_ms })
}
