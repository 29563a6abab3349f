import { defined } from '../basics/defined.ts'
import { LOCAL, v2 } from './codes.ts'
import { orderContext } from './orderContext.ts'
import { NAME, type FhirContext } from './context.ts'
import type { ServiceRequest } from './resources.ts'

/**
 * One for each test, held together by the order number as requisition. They stay `active`: whether an order is
 * completed is for the laboratory to say.
 */
export function serviceRequests(context: FhirContext): ServiceRequest[] {
  const { facts, head, refTo, specimens, tests: info } = context
  const { order, patient } = facts.opened
  const { requester, authoredOn, encounter, location } = orderContext(facts)
  const placer = { coding: [v2('0203', 'PLAC', 'Placer Identifier')] }
  const tests: readonly (string | undefined)[] = order.tests.length > 0 ? order.tests : [undefined]
  return tests.map((test, index) => {
    const serving = specimens.filter(({ tube }) => test !== undefined && tube.tests.includes(test))
    return defined({
      ...head('ServiceRequest', NAME.request(index)),
      requisition: { type: placer, system: LOCAL.order, value: order.orderNumber },
      status: 'active',
      intent: 'order',
      priority: order.priority,
      code:
        test === undefined
          ? undefined
          : {
              coding: [{ system: LOCAL.test, code: test }, ...info.codings(test)],
              text: info.testName(test),
            },
      subject: refTo(NAME.patient, patient.fullName),
      requester,
      authoredOn,
      encounter,
      locationReference: location && [location],
      specimen: serving.map(({ tube }) => refTo(NAME.specimen(tube.id, facts))),
    })
  })
}
