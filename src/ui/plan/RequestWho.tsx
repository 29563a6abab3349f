import type { OrderDraft } from '../../app/order/orderDraft.ts'
import { familyFirst, fullNameOf } from '../../core/order/patientName.ts'
import { dayAndTimeOf, dayMonthYear } from '../../core/time/format.ts'
import { useTexts } from '../shared/useTexts.ts'
import { RequestRows } from './RequestRows.tsx'

/** Patient and order on the printed request. */
export function RequestWho({ draft }: { readonly draft: OrderDraft }) {
  const { order, request } = useTexts().texts
  const { birthDate, recordNumber } = draft
  const parts = { familyName: draft.familyName.trim(), givenNames: draft.givenNames.trim() }
  const fullName = fullNameOf(parts, draft.fullName)
  const { family, given } = familyFirst({ fullName, ...parts, birthDate, recordNumber })
  return (
    <RequestRows
      rows={[
        [request.name, given ? `${family}, ${given}` : family],
        [order.birthDate, dayMonthYear(draft.birthDate)],
        [order.recordNumber, draft.recordNumber],
        [order.ward, draft.ward],
        [order.orderNumber, draft.orderNumber],
        [order.priority, order.priorities[draft.priority]],
        [order.provider, [draft.provider, draft.providerNumber].filter(Boolean).join(', ')],
        [order.orderedAt, dayAndTimeOf(draft.orderedAt)],
      ]}
    />
  )
}
