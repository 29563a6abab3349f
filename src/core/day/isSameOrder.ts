import type { ListedOrder } from './listedOrder.ts'
import { personKey } from './together.ts'

type Ordered = Pick<ListedOrder, 'patient' | 'order' | 'due' | 'invented'>

/**
 * One order that came twice: the same number, person, tests, priority and time. What differs in any of it may be
 * wanted, and is for a person to judge; so is what bears no number.
 */
export function isSameOrder(a: Ordered, b: Ordered): boolean {
  return (
    a.order.orderNumber !== '' &&
    a.order.orderNumber === b.order.orderNumber &&
    a.order.priority === b.order.priority &&
    a.invented === b.invented &&
    a.due?.at_ms === b.due?.at_ms &&
    personKey(a.patient) === personKey(b.patient) &&
    testsOf(a) === testsOf(b)
  )
}

const testsOf = ({ order }: Ordered): string => JSON.stringify([...order.tests].sort())
