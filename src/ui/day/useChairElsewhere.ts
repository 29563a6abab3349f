import type { DayGroup } from '../../core/day/dayList.ts'
import { useApp } from '../shared/appContext.tsx'

type Group = Pick<DayGroup, 'status' | 'drawId'>

/** What people call the device at whose chair a patient sits; `undefined` for one who sits here or nowhere. */
export function useChairElsewhere(): (group: Group) => string | undefined {
  const others = useApp((s) => s.others)
  return ({ status, drawId }) =>
    status === 'inChair' ? others.find((draw) => draw.drawId === drawId)?.deviceName : undefined
}
