import { record, impossible, type Decision } from './decision.ts'
import type { DrawEvent } from './events.ts'
import type { LogEntry } from './entry.ts'
import type { DrawState } from './state.ts'
import { isUndoable } from './undoable.ts'

/**
 * Takes back what was confirmed last, with everything recorded in the same moment by the same confirmation.
 * The entries stay in the log; a closed draw is corrected by an addendum instead.
 */
export function undo(s: DrawState): Decision {
  if (s.closed) return impossible('closed')
  const said = s.kept.filter(bySomebody)
  const last = said.at(-1)
  if (!last) return impossible('nothingToUndo')
  const group = said.filter((entry) => sameMoment(entry, last))
  const seqs = [...group, ...groundless(s, group)].map(({ seq }) => seq).sort((a, b) => b - a)
  return record(...seqs.map((seq): DrawEvent => ({ type: 'entryUndone', seq })))
}

function bySomebody({ source, event }: LogEntry): boolean {
  return source !== 'clock' && source !== 'app' && isUndoable(event.type)
}

/** What the clocks raised because of the entries now taken back: an alarm of a band that never was on. */
function groundless(s: DrawState, group: readonly LogEntry[]): readonly LogEntry[] {
  const band = group.some(({ event }) => event.type === 'bandOn')
  const tube = group.some(({ event }) => event.type === 'tubeOn')
  const since = Math.min(...group.map(({ seq }) => seq))
  return s.kept.filter(({ seq, source, event }) => {
    if (seq < since || source !== 'clock' || event.type !== 'exceptionRaised') return false
    return (band && event.kind === 'bandOver') || (tube && event.kind === 'slowFlow')
  })
}

function sameMoment(a: LogEntry, b: LogEntry): boolean {
  return a.at.boot === b.at.boot && a.at.mono_ms === b.at.mono_ms && a.source === b.source
}
