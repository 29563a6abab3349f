import { defined } from '../basics/defined.ts'
import type { Order } from '../order/order.ts'
import type { DrawFacts } from '../record/drawFacts.ts'
import { isoLocal } from '../time/format.ts'
import { LOCAL, v2 } from './codes.ts'
import type { Reference } from './resources.ts'

/** What an order says of who asked, when and where, as far as it is known. The resources themselves are elsewhere. */
export function orderContext({ opened, openedAt }: DrawFacts): {
  readonly requester?: Reference
  readonly authoredOn?: string
  readonly encounter?: Reference
  readonly location?: Reference
} {
  const { orderedAt, visitNumber, ward } = opened.order
  const visit = { coding: [v2('0203', 'VN', 'Visit number')] }
  return defined({
    requester: requesterOf(opened.order),
    authoredOn: orderedAt && dateTime(orderedAt, isoLocal(openedAt)),
    encounter: visitNumber
      ? { identifier: { type: visit, system: LOCAL.visit, value: visitNumber } }
      : undefined,
    location: ward ? { display: ward } : undefined,
  })
}

/** Who asked, as far as it is known. */
export function requesterOf({
  provider,
  providerNumber,
}: Pick<Order, 'provider' | 'providerNumber'>): Reference | undefined {
  if (!providerNumber && !provider) return undefined
  const identifier = providerNumber ? { system: LOCAL.provider, value: providerNumber } : undefined
  return defined({ identifier, display: provider })
}

/** R4 wants seconds and an offset with every time of day; the offset is that of the draw. */
function dateTime(typed: string, opened: string): string {
  const [day, time] = typed.split('T')
  if (!day || !time) return typed
  return `${day}T${time.length === 5 ? `${time}:00` : time}${opened.slice(-6)}`
}
