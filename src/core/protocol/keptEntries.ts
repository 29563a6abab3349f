import type { LogEntry } from './entry.ts'

/** An entry that was said in error, and the one that takes it back. */
export interface Retraction {
  readonly entry: LogEntry
  readonly by: LogEntry
}

/** Parts a log into what still counts and what was said in error. The entries that take back are in neither. */
export function keptEntries(entries: readonly LogEntry[]): {
  readonly kept: readonly LogEntry[]
  readonly retracted: readonly Retraction[]
} {
  let kept: readonly LogEntry[] = []
  const retracted: Retraction[] = []
  for (const by of entries) {
    const next = keep(kept, by)
    kept = next.kept
    if (next.retracted) retracted.push({ entry: next.retracted, by })
  }
  return { kept, retracted }
}

/**
 * What counts after one more entry, and what that entry takes back. Without its opening there is no draw, so that
 * stays.
 */
export function keep(
  kept: readonly LogEntry[],
  entry: LogEntry,
): { readonly kept: readonly LogEntry[]; readonly retracted?: LogEntry } {
  const { event } = entry
  if (event.type !== 'entryUndone') return { kept: [...kept, entry] }
  const retracted = kept.find(
    (other) => other.seq === event.seq && other.event.type !== 'drawOpened',
  )
  if (!retracted) return { kept }
  return { kept: kept.filter((other) => other !== retracted), retracted }
}
