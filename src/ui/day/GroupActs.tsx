import { useState } from 'react'
import type { DayGroup } from '../../core/day/dayList.ts'
import { isToDo } from '../../core/day/orderStatus.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { MoreActs } from './MoreActs.tsx'

interface GroupActsProps {
  readonly group: DayGroup
  readonly named: boolean
  readonly isFirst: boolean
}

/** What is done with these orders most often; the rest opens below. */
export function GroupActs({ group, named, isFirst }: GroupActsProps) {
  const actions = useActions()
  const { day } = useServices().site.texts
  const { fill } = useTexts()
  const [isOpen, setOpen] = useState(false)
  const { ids, status, drawId, items } = group
  const name = named ? group.patient.fullName : day.hidden
  const open = isToDo(status)
  const isCalled = status === 'called'
  const callOf = isCalled ? day.callAgainOf : day.callOf
  const main = isFirst ? 'button go' : 'button'
  const lacks = items.some(
    (item) =>
      item.followedBy === undefined &&
      (item.status.status === 'partlyDrawn' || item.status.status === 'notDrawn'),
  )
  return (
    <>
      <div className="rowOfButtons">
        {open && (
          <>
            <button
              type="button"
              className={main}
              aria-label={fill(day.beginOf, { name })}
              onClick={() => void actions.day.begin(ids)}
            >
              {day.begin}
            </button>
            <button
              type="button"
              className="button"
              aria-label={fill(callOf, { name })}
              onClick={() => void actions.day.call(ids)}
            >
              {isCalled ? day.callAgain : day.call}
            </button>
          </>
        )}
        {isCalled && (
          <button type="button" className="button" onClick={() => void actions.day.notFound(ids)}>
            {day.notFound}
          </button>
        )}
        {drawId !== undefined && (
          <button
            type="button"
            className={status === 'inChair' ? main : 'button'}
            onClick={() =>
              void actions.go({ name: status === 'inChair' ? 'draw' : 'chart', drawId })
            }
          >
            {day.goTo}
          </button>
        )}
        {lacks && (
          <button type="button" className={main} onClick={() => void actions.day.listRest(ids)}>
            {day.listRest}
          </button>
        )}
        <button
          type="button"
          className="button quiet"
          aria-expanded={isOpen}
          onClick={() => setOpen(!isOpen)}
        >
          {day.more}
        </button>
      </div>
      {isOpen && <MoreActs group={group} />}
    </>
  )
}
