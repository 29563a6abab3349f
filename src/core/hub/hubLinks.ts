import { BEHIND_UNTOLD, type HubEntry } from './hubEntry.ts'

/** Follows the entries of logs, each of which names the one before it. */
export interface HubLinks {
  /** Whether nothing is missing before this entry; a place that was passed already is `known`. */
  take(entry: Pick<HubEntry, 'log' | 'sequence' | 'behind'>): 'next' | 'known' | 'gap'
}

/**
 * @param after entries up to here are with the reader: the first entry of a log may stand behind any of them
 */
export function createHubLinks(after: number): HubLinks {
  const last = new Map<string, number>()
  return {
    take({ log, sequence, behind }) {
      const before = last.get(log)
      if (sequence <= (before ?? after)) return 'known'
      const follows = before === undefined ? behind <= after : behind === before
      if (!follows && behind !== BEHIND_UNTOLD) return 'gap'
      last.set(log, sequence)
      return 'next'
    },
  }
}
