import { checkChain } from './checkChain.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { entryFault } from './eventShape.ts'
import type { LogFault } from './fault.ts'
import type { Sha256 } from './seal.ts'

export type LogCheck = { readonly ok: true } | ({ readonly ok: false } & LogFault)

export const LOG_FORMAT = 'stillhand-log'
export const LOG_VERSION = 1

/**
 * Checks a log of the current version from its first entry to its last and names the first fault.
 * It cannot know that entries were cut off the end: a file carries a trailer for that, see `readLog`.
 */
export function checkLog(log: unknown, sha256: Sha256): LogCheck {
  const fault = headFault(log, LOG_VERSION) ?? bodyFault(log as DrawLog, sha256)
  return fault ? { ok: false, ...fault } : { ok: true }
}

/** Is this one of our logs at all, and of which version? */
export function headFault(log: unknown, newest: number): LogFault | undefined {
  const head = log as { format?: unknown; version?: unknown; drawId?: unknown; entries?: unknown }
  if (typeof log !== 'object' || log === null || head.format !== LOG_FORMAT) {
    return foreign('This is not a Stillhand log.')
  }
  if (typeof head.version !== 'number' || !Number.isInteger(head.version) || head.version < 0) {
    return foreign('The log does not say which version of the format it has.')
  }
  if (head.version > newest) {
    const reason = `The log has format version ${head.version}; this app reads up to ${newest}. Use a newer app.`
    return { kind: 'futureVersion', seq: 0, reason }
  }
  if (typeof head.drawId !== 'string' || !Array.isArray(head.entries)) {
    return foreign('The log has no draw number or no list of entries.')
  }
  if (head.entries.length === 0) {
    return { kind: 'truncated', seq: 1, reason: 'The log has no entries.' }
  }
  return undefined
}

function bodyFault(log: DrawLog, sha256: Sha256): LogFault | undefined {
  const chain = checkChain(log.entries, sha256)
  const sound = chain && chain.seq > 0 ? log.entries.slice(0, chain.seq - 1) : log.entries
  return entriesFault({ ...log, entries: sound }) ?? chain
}

/** Shapes, times and the draw's own number, for entries whose chain holds. */
export function entriesFault(log: DrawLog): LogFault | undefined {
  let last_ms = -Infinity
  for (const [index, entry] of log.entries.entries()) {
    const seq = index + 1
    const shape = entryFault(entry)
    if (shape) return { kind: 'badEvent', seq, reason: `Entry ${seq} cannot be read: ${shape}.` }
    if (entry.at.at_ms < last_ms) {
      return { kind: 'timeBackwards', seq, reason: `Entry ${seq} is earlier than the one before.` }
    }
    last_ms = entry.at.at_ms
    const misplaced = openingFault(log, seq)
    if (misplaced) return misplaced
  }
  return undefined
}

/** The first entry opens the draw, and no other does. */
function openingFault(log: DrawLog, seq: number): LogFault | undefined {
  const event = log.entries[seq - 1]?.event
  const opens = event?.type === 'drawOpened'
  if (opens !== (seq === 1)) {
    const reason = opens
      ? `Entry ${seq} opens a second draw.`
      : 'The first entry does not open a draw.'
    return { kind: 'badEvent', seq, reason }
  }
  if (opens && event.drawId !== log.drawId) {
    return {
      kind: 'altered',
      seq,
      reason: `The log is headed ${log.drawId} but holds another draw.`,
    }
  }
  return undefined
}

const foreign = (reason: string): LogFault => ({ kind: 'foreign', seq: 0, reason })
