import type { DrawLog } from '../protocol/entry.ts'
import { keptEntries } from '../protocol/keptEntries.ts'
import type { PlannedTube } from '../plan/plan.ts'

/** A tube that is gone from the shelf, with the lot that was read, else the one it was planned from. */
export interface UsedTube {
  readonly tubeCode: string
  readonly lot: string | undefined
}

/**
 * The tubes that a draw took off the shelf: each that went on the holder, and each that was set aside, for another of
 * its kind went on in its place. What was taken back did not happen.
 */
export function usedTubes(log: DrawLog): readonly UsedTube[] {
  const planned = new Map<string, PlannedTube>()
  const onceOn = new Set<string>()
  const used: UsedTube[] = []
  const read = new Map<string, string>()
  const take = (id: string): void => {
    const tube = planned.get(id)
    if (tube) used.push({ tubeCode: tube.tubeCode, lot: read.get(id) ?? tube.lot })
    read.delete(id)
  }
  for (const { event } of keptEntries(log.entries).kept) {
    if (event.type === 'drawOpened' || event.type === 'planRevised') {
      for (const tube of event.plan.tubes) planned.set(tube.id, tube)
    }
    if (event.type === 'lotRead') read.set(event.tubeId, event.lot)
    if (event.type === 'tubeOn') onceOn.add(event.tubeId)
    if (event.type !== 'tubeSwapped') continue
    onceOn.delete(event.tubeId)
    take(event.tubeId)
  }
  onceOn.forEach(take)
  return used
}
