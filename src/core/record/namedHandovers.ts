import type { LogEntry } from '../protocol/entry.ts'

/**
 * Entries that count, with each hand-over where it was: a colleague who took over at once and was named later had the
 * patient from the moment they took over. The entries that name them stand there, with its time; the order of all
 * others is as it was.
 */
export function namedHandovers(kept: readonly LogEntry[]): readonly LogEntry[] {
  let ordered = kept
  for (const took of kept.filter(({ event }) => event.type === 'colleagueTook')) {
    const later = ordered.slice(ordered.indexOf(took) + 1)
    const named = later.findIndex(({ event }) => event.type === 'collectorChanged')
    if (named < 0) continue
    // What names a colleague is written as one: raised, named, ended.
    const naming = new Set(later.slice(Math.max(0, named - 1), named + 2).filter(isOfHandover))
    ordered = ordered.flatMap((entry) => {
      if (entry === took) return [took, ...[...naming].map((each) => ({ ...each, at: took.at }))]
      return naming.has(entry) ? [] : [entry]
    })
  }
  return ordered
}

const isOfHandover = ({ event }: LogEntry): boolean =>
  event.type === 'collectorChanged' ||
  ((event.type === 'exceptionRaised' || event.type === 'exceptionEnded') &&
    event.kind === 'handover')
