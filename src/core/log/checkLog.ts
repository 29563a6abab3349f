import { isRecord } from '../basics/isRecord.ts'
import { faulty, ok, type Result } from '../basics/result.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { checkChain } from './checkChain.ts'
import { entryFault } from './eventShape.ts'
import { logFault, type LogFault } from './fault.ts'
import type { Sha256 } from './seal.ts'

export const LOG_FORMAT = 'stillhand-log'
export const LOG_VERSION = 1

/**
 * Checks a log of the current version from its first entry to its last and names the first fault.
 * It cannot know that entries were cut off the end: a file carries a trailer for that, see `readLog`.
 */
export function checkLog(log: unknown, sha256: Sha256): Result<DrawLog, LogFault> {
  const fault = headFault(log, LOG_VERSION) ?? bodyFault(log as DrawLog, sha256)
  return fault ? faulty([fault]) : ok(log as DrawLog)
}

/** Is this one of our logs at all, and of which version? */
export function headFault(log: unknown, newest: number): LogFault | undefined {
  if (!isRecord(log) || log['format'] !== LOG_FORMAT) return logFault('notALog')
  const { version, drawId, entries } = log
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 0) {
    return logFault('noVersion')
  }
  if (version > newest) return logFault('newerVersion', 0, { version, newest })
  if (typeof drawId !== 'string' || !Array.isArray(entries)) return logFault('noEntries')
  return entries.length === 0 ? logFault('empty', 1) : undefined
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
    const shape = entryFault(entry, seq)
    if (shape) return shape
    if (entry.at.at_ms < last_ms) return logFault('earlier', seq)
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
  if (opens !== (seq === 1)) return logFault(opens ? 'opensTwice' : 'opensNot', seq)
  if (opens && event.drawId !== log.drawId) {
    return logFault('otherDraw', seq, { drawId: log.drawId })
  }
  return undefined
}
