import { record, senseless, type Decision } from './decision.ts'
import type { DrawEvent } from './events.ts'
import type { LogEntry } from '../log/entry.ts'
import type { DrawState } from './state.ts'

/** Entries that nobody confirmed, so nobody can take back. */
const NOT_SAID: ReadonlySet<DrawEvent['type']> = new Set([
  'drawOpened',
  'cueGiven',
  'clockStepped',
  'awayNoticed',
  'planRevised',
  'addendumMade',
  'drawClosed',
])

/**
 * Takes back what was confirmed last, with everything recorded in the same moment by the same confirmation.
 * The entries stay in the log; a closed draw is corrected by an addendum instead.
 */
export function undo(s: DrawState): Decision {
  if (s.closed) return senseless('closed')
  const said = s.kept.filter((entry) => entry.source !== 'clock' && !NOT_SAID.has(entry.event.type))
  const last = said.at(-1)
  if (!last) return senseless('nothingToUndo')
  const group = said.filter((entry) => sameMoment(entry, last))
  return record(...group.map(({ seq }): DrawEvent => ({ type: 'entryUndone', seq })).reverse())
}

function sameMoment(a: LogEntry, b: LogEntry): boolean {
  return a.at.boot === b.at.boot && a.at.mono_ms === b.at.mono_ms && a.source === b.source
}
