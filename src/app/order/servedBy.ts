import { defined } from '../../core/basics/defined.ts'
import type { OrderDraft, ServedOrders } from './orderDraft.ts'

/**
 * The listed orders that a form is for: none once it names another person. A test that was taken off the form is none
 * of any order's in this draw.
 */
export function servedBy(draft: OrderDraft): ServedOrders | undefined {
  const { served, recordNumber, birthDate, tests } = draft
  if (!served) return undefined
  if (served.recordNumber !== recordNumber.trim() || served.birthDate !== birthDate.trim()) {
    return undefined
  }
  const parts = served.parts?.map((part) => ({
    ...part,
    tests: part.tests.filter((test) => tests.includes(test)),
  }))
  return defined({ ...served, parts })
}
