import { useState } from 'react'
import type { DayGroup } from '../../core/day/dayList.ts'
import { isToDo } from '../../core/day/orderStatus.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'

/** Everything else that can happen to an order before its draw. Each asks for the reason that it needs. */
export function MoreActs({ group }: { readonly group: DayGroup }) {
  const actions = useActions()
  const { day } = useServices().site.texts
  const [why, setWhy] = useState('')
  const [by, setBy] = useState('')
  const [until, setUntil] = useState('')
  const { ids, status, apart, twice } = group
  const [first = ''] = ids
  const open = isToDo(status)
  const act = (label: string, work: () => unknown) => (
    <button type="button" className="button" onClick={() => void work()}>
      {label}
    </button>
  )
  return (
    <div className="moreActs">
      <TextField label={day.why} value={why} onChange={setWhy} />
      {open && (
        <div className="pair">
          <TextField label={day.until} hint={day.untilHint} value={until} onChange={setUntil} />
          <TextField label={day.cancelBy} value={by} onChange={setBy} />
        </div>
      )}
      <div className="rowOfButtons">
        {open && (
          <>
            {act(day.putOff, () => actions.day.putOff(ids, until, why))}
            {act(day.refuse, () => actions.day.refuse(ids, why))}
            {act(day.cancel, () => actions.day.cancel(ids, by, why))}
            {act(day.notFound, () => actions.day.notFound(ids))}
          </>
        )}
        {ids.length === 1 && act(day.edit, () => actions.day.edit(first))}
        {ids.length > 1 && act(day.part, () => actions.day.part(ids))}
        {status !== 'inChair' &&
          status !== 'waiting' &&
          act(day.reopen, () => actions.day.reopen(ids, why))}
        {apart.length > 0 &&
          act(day.join, () => actions.day.join([...ids, ...apart.map(({ order }) => order.id)]))}
        {twice.length > 0 &&
          act(day.keepBoth, () =>
            actions.day.keepBoth([...new Set([...ids, ...twice.map(({ order }) => order.id)])]),
          )}
      </div>
    </div>
  )
}
