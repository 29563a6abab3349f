import { defined } from '../basics/defined.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { checkChain } from './checkChain.ts'
import { entriesFault, headFault, LOG_FORMAT, LOG_VERSION } from './checkLog.ts'
import type { LogFault } from './fault.ts'
import type { Sha256 } from './seal.ts'
import { upgradeLog } from './upgrade.ts'

/** A log as it came from a store. With a fault, nothing in it may be passed on as if it were good. */
export interface CheckedLog extends DrawLog {
  readonly fault?: LogFault
}

/** A log of any version, as it is stored. */
export interface RawLog {
  readonly version: number
  readonly drawId: string
  readonly entries: readonly unknown[]
}

export type StoredReading =
  | {
      readonly log: CheckedLog
      /** The version it was stored in, when that is an older one and the chain was whole. */
      readonly from?: number
    }
  /** Not even the opening can be read. */
  | { readonly unreadable: LogFault }

/**
 * Brings a stored log to today's format and checks it from its first entry to its last.
 * A log with a fault keeps the entries that can be read, so that a person sees what there is. It is sealed again only
 * where its old chain was whole; in memory alone otherwise, since a broken chain must never come out mended.
 */
export function readStored(raw: RawLog, sha256: Sha256): StoredReading {
  const head = headFault({ ...raw, format: LOG_FORMAT }, LOG_VERSION)
  if (head) return { unreadable: head }
  const chain = checkChain(raw.entries, sha256)
  const { log, from } = upgraded(raw, chain, sha256)
  const shape = entriesFault(log)
  const fault = earlier(chain, shape)
  if (!fault) return defined({ log, from })
  const readable = shape && shape.seq > 0 ? log.entries.slice(0, shape.seq - 1) : log.entries
  if (readable.length === 0) return { unreadable: fault }
  return { log: { ...log, entries: readable, fault } }
}

/** Of an older log with a broken chain only what stands before the break is brought up: the rest was not ours. */
function upgraded(
  raw: RawLog,
  chain: LogFault | undefined,
  sha256: Sha256,
): { readonly log: DrawLog; readonly from?: number } {
  const older = raw.version < LOG_VERSION
  const entries = older && chain ? raw.entries.slice(0, chain.seq - 1) : raw.entries
  const { log, from } = upgradeLog({ ...raw, entries }, sha256)
  const { drawId } = raw
  const headed: DrawLog = { ...log, format: LOG_FORMAT, version: LOG_VERSION, drawId }
  return defined({ log: headed, from })
}

function earlier(a: LogFault | undefined, b: LogFault | undefined): LogFault | undefined {
  if (!a || !b) return a ?? b
  return b.seq < a.seq ? b : a
}
