import type { OrderDraft } from '../../app/order/orderDraft.ts'
import { useActions, useApp } from '../shared/appContext.tsx'

/** The form's state with the error of each field at hand. */
export function useDraft() {
  const draft = useApp((s) => s.draft)
  const errors = useApp((s) => s.draftErrors)
  const actions = useActions()
  return {
    draft,
    edit: (change: Partial<OrderDraft>): void => actions.editDraft(change),
    errorOf: (field: keyof OrderDraft): string | undefined =>
      errors.find((error) => error.field === field)?.text,
  }
}

/** The id of a field's input, so that the summary can lead to it. */
export const fieldId = (field: keyof OrderDraft): string => `draft-${field}`
