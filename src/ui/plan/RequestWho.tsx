import type { OrderDraft } from '../../app/order/orderDraft.ts'
import { familyFirst, fullNameOf } from '../../core/order/patientName.ts'
import { ownValue } from '../../core/basics/ownValue.ts'
import { NOT_DRAWN } from '../../core/day/recollection.ts'
import { dayAndTimeOf, dayMonthYear } from '../../core/time/format.ts'
import { servedBy } from '../../app/order/servedBy.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { RequestRows } from './RequestRows.tsx'

/** Patient and order on the printed request. */
export function RequestWho({ draft }: { readonly draft: OrderDraft }) {
  const { texts, fill } = useTexts()
  const { order, request } = texts
  const { site, testName } = useServices()
  const { day, note } = site.texts
  const { birthDate, recordNumber } = draft
  const parts = { familyName: draft.familyName.trim(), givenNames: draft.givenNames.trim() }
  const served = servedBy(draft)
  const each = served?.parts ?? []
  const numbers =
    each
      .map(({ orderNumber, tests }) => `${orderNumber} (${tests.map(testName).join(', ')})`)
      .join('; ') || draft.orderNumber
  const again = served?.recollects
  const why = (reason: string): string =>
    reason === NOT_DRAWN ? day.notDrawn : (ownValue(note.words.rejected, reason) ?? reason)
  const providers = [...new Set(each.map(({ provider }) => provider ?? '').filter(Boolean))]
  const fullName = fullNameOf(parts, draft.fullName)
  const { family, given } = familyFirst({ fullName, ...parts, birthDate, recordNumber })
  return (
    <RequestRows
      rows={[
        [request.name, given ? `${family}, ${given}` : family],
        [order.birthDate, dayMonthYear(draft.birthDate)],
        [order.recordNumber, draft.recordNumber],
        [order.ward, draft.ward],
        [order.orderNumber, numbers],
        ...(again
          ? [
              [
                day.recollection,
                fill(day.recollects, {
                  drawId: again.drawId,
                  why: [why(again.reason), again.note].filter(Boolean).join(', '),
                }),
              ] as const,
            ]
          : []),
        [order.priority, order.priorities[draft.priority]],
        [
          order.provider,
          providers.length > 1
            ? providers.join('; ')
            : [draft.provider, draft.providerNumber].filter(Boolean).join(', '),
        ],
        [order.orderedAt, dayAndTimeOf(draft.orderedAt)],
      ]}
    />
  )
}
