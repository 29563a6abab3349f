import { transition, type Seal } from '../protocol/transition.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { isBenchEvent } from '../protocol/benchEvents.ts'
import { replay } from '../protocol/evolve.ts'
import type { Reading } from '../time/stamp.ts'
import type { ActDone, ActedSpecimens } from './dayEvents.ts'

/** An act at the bench as the day's log has it. */
export interface ActOver {
  readonly id: string
  readonly act: ActDone
  readonly specimens: readonly ActedSpecimens[]
  readonly at_ms: number
  /** Id of who did it. */
  readonly by: string
}

/**
 * A draw that another device writes, with the acts laid over it that its own device has not charted yet. What cannot be
 * true of the draw is left out, as it will be there. Not a record: nothing of it is stored or sent.
 * @param seal closes an entry onto the one before it
 */
export function layActsOver(
  log: DrawLog,
  acts: readonly ActOver[],
  now: Reading,
  seal: Seal,
): { readonly log: DrawLog; readonly laid: ReadonlySet<string> } {
  const own = acts.flatMap((act) => {
    const of = act.specimens.find(({ drawId }) => drawId === log.drawId)
    return of ? [{ ...act, tubeIds: of.tubeIds }] : []
  })
  // Most draws have none, and to replay a log is dear.
  if (own.length === 0) return { log, laid: new Set() }
  const charted = new Set(
    log.entries.flatMap(({ event }) => (isBenchEvent(event) ? (event.act ?? []) : [])),
  )
  const laid = new Set<string>()
  let entries = log.entries
  let state = replay(entries)
  for (const { id, act, tubeIds, at_ms, by } of own.sort((a, b) => a.at_ms - b.at_ms)) {
    if (charted.has(id)) continue
    const command = {
      type: 'benchAct' as const,
      act: { ...act, tubeIds, act: id, at_ms },
      actor: by,
    }
    const next = transition(state, command, { now, source: 'app', confirmed: true }, seal)
    if (next.entries.length === 0) continue
    entries = [...entries, ...next.entries]
    state = next.state
    for (const tubeId of tubeIds) laid.add(tubeId)
  }
  return { log: { ...log, entries }, laid }
}
