import type { ChainEntry } from '../protocol/entry.ts'
import { appendFault } from './appendFault.ts'

type Link = Pick<ChainEntry, 'seq' | 'hash'>

export type AppendRest<T extends ChainEntry = ChainEntry> =
  { readonly add: readonly T[] } | { readonly refused: 'movedOn' | 'gap'; readonly reason: string }

/**
 * What is left to write of `entries` behind what is stored. An entry that is there already with the same hash is the
 * same entry, written by an attempt that was given up and succeeded later; it is not written again.
 * @param stored the end of the log in order, from the entry before the first of `entries` or earlier
 */
export function appendRest<T extends ChainEntry>(
  stored: readonly Link[],
  entries: readonly T[],
): AppendRest<T> {
  const hashes = new Map(stored.map(({ seq, hash }) => [seq, hash]))
  const first = entries.findIndex(({ seq, hash }) => hashes.get(seq) !== hash)
  const rest = first < 0 ? [] : entries.slice(first)
  const last = stored.at(-1)
  const reason = rest.length > 0 ? appendFault(last, rest) : undefined
  if (reason === undefined) return { add: rest }
  const next = (last?.seq ?? 0) + 1
  const gap = rest.some(({ seq }, index) => seq > next + index)
  return { refused: gap ? 'gap' : 'movedOn', reason }
}
