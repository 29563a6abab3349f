import type { DrawLog } from '../../core/protocol/entry.ts'
import { isBenchEvent } from '../../core/protocol/benchEvents.ts'
import { keptEntries } from '../../core/protocol/keptEntries.ts'
import { happenedAt } from '../../core/protocol/specimenWay.ts'
import type { ActSeen } from '../view/benchViewTypes.ts'

/** The acts that count in a log, by its own tubes alone. */
export function actsIn(log: DrawLog): readonly ActSeen[] {
  return keptEntries(log.entries).kept.flatMap((entry): readonly ActSeen[] => {
    const { event } = entry
    if (!isBenchEvent(event) || event.act === undefined) return []
    const specimens = [{ drawId: log.drawId, tubeIds: event.tubeIds ?? [] }]
    return [{ id: event.act, type: event.type, at_ms: happenedAt(entry).at_ms, specimens }]
  })
}

/** Ids of every act that a log has, also of those taken back. */
export function actIdsIn({ entries }: DrawLog): ReadonlySet<string> {
  return new Set(entries.flatMap(({ event }) => (isBenchEvent(event) ? (event.act ?? []) : [])))
}

/** Acts on tubes of several draws put together by their ids, the newest first. */
export function joinedActs(acts: readonly ActSeen[]): readonly ActSeen[] {
  const found = new Map<string, ActSeen>()
  for (const act of acts) {
    const known = found.get(act.id)
    const specimens = [...(known?.specimens ?? []), ...act.specimens]
    found.set(act.id, { ...act, specimens })
  }
  return [...found.values()].sort((a, b) => b.at_ms - a.at_ms)
}
