import { defined } from '../../core/basics/defined.ts'
import type { ListedOrder, OrderSource } from '../../core/day/listedOrder.ts'
import { NOTED_MOMENTS } from '../../core/order/sitting.ts'
import type { OrderReading } from '../order/readOrder.ts'
import type { ListedWith } from '../order/orderPiece.ts'
import type { OrderDraft } from '../order/orderDraft.ts'
import { skinPlaceOf } from '../order/planInput.ts'
import type { DraftValues } from '../order/readDraft.ts'

/** An order of the form, which could be read whole. */
export function listedFromDraft(values: DraftValues, draft: OrderDraft): Omit<ListedOrder, 'id'> {
  const told = NOTED_MOMENTS.flatMap((moment) => {
    const at = draft.moments[moment]?.trim() ?? ''
    return at === '' ? [] : [[moment, at] as const]
  })
  return defined({
    invented: draft.invented,
    ...values,
    needleSet: draft.needleSet,
    collecting: skinPlaceOf(draft),
    moments: told.length > 0 ? Object.fromEntries(told) : undefined,
    from: 'hand' as const,
    questions: [],
  })
}

/** An order of a file: what it leaves open stays open until it is planned. */
export function listedFromReading(
  { draft, questions }: OrderReading,
  from: OrderSource,
  more: ListedWith,
): Omit<ListedOrder, 'id'> {
  const { fullName, familyName, givenNames, birthDate, recordNumber, sex } = draft
  const { orderNumber, tests, provider, priority } = draft
  return {
    ...more,
    invented: false,
    patient: defined({
      fullName,
      familyName: familyName || undefined,
      givenNames: givenNames || undefined,
      birthDate,
      recordNumber,
      sex: sex || undefined,
    }),
    order: defined({ orderNumber, tests, priority, provider: provider || undefined }),
    preparation: { anticoagulant: 'notAsked', restrictions: {} },
    from,
    questions,
  }
}
