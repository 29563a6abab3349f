import type { Order, OrderPart } from './order.ts'

/** Those of several orders sharing a draw that ask for a test; none where the draw is of one order. */
export const partsWith = (
  { parts = [] }: Pick<Order, 'parts'>,
  test: string,
): readonly OrderPart[] => parts.filter(({ tests }) => tests.includes(test))

/** Numbers of the orders that ask for one of these tests, `O-1 + O-2`; the order's own where it is the only one. */
export function orderNumbersOf(order: Order, tests: readonly string[]): string {
  const own = (order.parts ?? []).filter((part) => part.tests.some((test) => tests.includes(test)))
  const numbers = [...new Set(own.map(({ orderNumber }) => orderNumber))]
  return numbers.length > 0 ? numbers.join(' + ') : order.orderNumber
}
