import { useState } from 'react'
import { useActions, useServices } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'

/** An order is not drawn any more: who says so, and why. */
export function CancelForm({ orderIds }: { readonly orderIds: readonly string[] }) {
  const actions = useActions()
  const { day } = useServices().site.texts
  const [by, setBy] = useState('')
  const [why, setWhy] = useState('')
  return (
    <details>
      <summary>{day.cancel}</summary>
      <TextField label={day.cancelBy} value={by} onChange={setBy} />
      <TextField label={day.why} value={why} onChange={setWhy} />
      <button
        type="button"
        className="button"
        onClick={() => void actions.day.cancel(orderIds, by, why)}
      >
        {day.cancel}
      </button>
    </details>
  )
}
