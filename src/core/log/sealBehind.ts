import type { LogEntry, UnsealedEntry } from '../protocol/entry.ts'
import type { DrawEvent } from '../protocol/events.ts'
import { sealAll, type Sha256 } from './seal.ts'

/**
 * Seals entries anew behind entries that somebody else wrote first, with a note before them that says so. What was
 * recorded and when a clock was read stays; the number, the chain and, where the others are later, the charted time
 * follow the others. An entry that takes another one of these back follows it to its new number.
 * @param last the entry that now stands before them
 * @param note in words, for the record
 */
export function sealBehind(
  last: LogEntry,
  entries: readonly LogEntry[],
  note: string,
  sha256: Sha256,
): LogEntry[] {
  const first = entries[0]
  if (!first) return []
  const said: UnsealedEntry = {
    seq: 0,
    at: first.at,
    by: first.by,
    source: 'app',
    event: { type: 'noteAdded', text: note },
  }
  const numbers = new Map(entries.map(({ seq }, index) => [seq, last.seq + 2 + index]))
  let at_ms = last.at.at_ms
  const moved = [said, ...entries.map(bare)].map((entry, index): UnsealedEntry => {
    at_ms = Math.max(at_ms, entry.at.at_ms)
    const at = { ...entry.at, at_ms }
    return { ...entry, seq: last.seq + 1 + index, at, event: renumbered(entry.event, numbers) }
  })
  return sealAll(moved, sha256, last.hash)
}

function bare({ previous: _previous, hash: _hash, ...entry }: LogEntry): UnsealedEntry {
  return entry
}

function renumbered(event: DrawEvent, numbers: ReadonlyMap<number, number>): DrawEvent {
  if (event.type !== 'entryUndone') return event
  return { ...event, seq: numbers.get(event.seq) ?? event.seq }
}
