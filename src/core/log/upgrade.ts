import { LOG_FORMAT, LOG_VERSION } from './checkLog.ts'
import type { DrawLog, UnsealedEntry } from '../protocol/entry.ts'
import { sealAll, type Sha256 } from './seal.ts'

type Raw = Readonly<Record<string, unknown>>

/** Brings one entry of a version to the next version. Chain fields are added anew afterwards. */
type EntryUpcaster = (entry: Raw) => Raw

/** By the version they start from. A change of the format adds a row, a fixture and a test. */
const UPCASTERS: Readonly<Record<number, EntryUpcaster>> = {
  0: fromVersion0,
}

export interface Upgraded {
  readonly log: DrawLog
  /** The version the file had, when it was an older one. */
  readonly from?: number
}

/**
 * Brings a log whose own chain has been checked to the current version. Its entries are sealed again, because their
 * shape changed; the old file with its signature remains the evidence and should be kept.
 */
export function upgradeLog(
  raw: { readonly version: number; readonly drawId: string; readonly entries: readonly unknown[] },
  sha256: Sha256,
): Upgraded {
  if (raw.version === LOG_VERSION) return { log: raw as DrawLog }
  let entries = raw.entries as readonly Raw[]
  for (let version = raw.version; version < LOG_VERSION; version++) {
    const upcast = UPCASTERS[version]
    if (!upcast) throw new RangeError(`There is no way up from log version ${version}.`)
    entries = entries.map(upcast)
  }
  const sealed = sealAll(entries.map(withoutChain) as unknown as UnsealedEntry[], sha256)
  const log: DrawLog = {
    format: LOG_FORMAT,
    version: LOG_VERSION,
    drawId: raw.drawId,
    entries: sealed,
  }
  return { log, from: raw.version }
}

function withoutChain(entry: Raw): Raw {
  const { previous: _previous, hash: _hash, ...rest } = entry
  return rest
}

/** Version 0 wrote `time` for `at`, `tourniquetOn/Off` for the band, and `full: boolean` for the fill. */
function fromVersion0(entry: Raw): Raw {
  const { time, event, ...rest } = entry
  return { ...rest, at: time, event: eventFrom0(event as Raw) }
}

function eventFrom0(event: Raw): Raw {
  if (event['type'] === 'tourniquetOn') return { ...event, type: 'bandOn' }
  if (event['type'] === 'tourniquetOff') return { ...event, type: 'bandOff' }
  if (event['type'] === 'tubeOff') {
    const { full, ...rest } = event
    return { ...rest, fill: full === true ? 'full' : 'short' }
  }
  return event
}
