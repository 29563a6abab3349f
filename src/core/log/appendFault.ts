import type { ChainEntry } from '../protocol/entry.ts'
import { NO_PREVIOUS } from './seal.ts'

/**
 * Says why entries cannot be put behind `last`, or `undefined` when they follow it without a gap. Every store asks
 * this before it writes, so that a log can only grow at its end.
 */
export function appendFault(
  last: Pick<ChainEntry, 'seq' | 'hash'> | undefined,
  entries: readonly Pick<ChainEntry, 'seq' | 'hash' | 'previous'>[],
): string | undefined {
  let seq = last?.seq ?? 0
  let hash = last?.hash ?? NO_PREVIOUS
  for (const entry of entries) {
    if (entry.seq <= seq) {
      return `Entry ${entry.seq} is already written and is never written again. Another tab may have this draw open.`
    }
    if (entry.seq !== seq + 1) return `Entry ${seq + 1} is missing before entry ${entry.seq}.`
    if (entry.previous !== hash) {
      return `Entry ${entry.seq} does not follow the entry that is stored before it.`
    }
    seq = entry.seq
    hash = entry.hash
  }
  return undefined
}
