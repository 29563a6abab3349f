import type { LogEntry } from '../protocol/entry.ts'
import { chartedTimes } from '../time/chartedTimes.ts'
import type { TimeCorrection } from './drawFacts.ts'

/** The entries of a log with the times that are known at its end; `chartedTimes` says how. */
export function timedEntries(entries: readonly LogEntry[]): readonly LogEntry[] {
  const times = chartedTimes(entries.map(({ at }) => at))
  return entries.map((entry, index) => ({ ...entry, at: times[index] ?? entry.at }))
}

/**
 * Which written times were put right and by how much, one fact for each run of neighbors with one correction
 * (within a second). `from` and `to` are the times as they were written.
 */
export function timeCorrections(
  written: readonly LogEntry[],
  timed: readonly LogEntry[],
): readonly TimeCorrection[] {
  const found: TimeCorrection[] = []
  let open: TimeCorrection | undefined
  for (const [index, { at }] of written.entries()) {
    const by_ms = (timed[index]?.at.at_ms ?? at.at_ms) - at.at_ms
    if (open && Math.abs(by_ms - open.by_ms) <= 1000) {
      open = { ...open, to: at, entries: open.entries + 1 }
    } else {
      if (open) found.push(open)
      open = by_ms === 0 ? undefined : { from: at, to: at, by_ms, entries: 1 }
    }
  }
  return open ? [...found, open] : found
}
