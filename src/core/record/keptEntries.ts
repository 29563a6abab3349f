import type { LogEntry } from '../protocol/entry.ts'

/** Parts a log into what still counts and what was said in error. The entries that take back are in neither. */
export function keptEntries(entries: readonly LogEntry[]): {
  readonly kept: readonly LogEntry[]
  readonly retracted: readonly { readonly entry: LogEntry; readonly by: LogEntry }[]
} {
  const retracted: { entry: LogEntry; by: LogEntry }[] = []
  let kept: LogEntry[] = []
  for (const entry of entries) {
    const { event } = entry
    if (event.type !== 'entryUndone') {
      kept.push(entry)
      continue
    }
    const found = kept.find((other) => other.seq === event.seq)
    if (found) retracted.push({ entry: found, by: entry })
    kept = kept.filter((other) => other !== found)
  }
  return { kept, retracted }
}
