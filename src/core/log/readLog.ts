import { checkChain } from './checkChain.ts'
import { entriesFault, headFault, LOG_VERSION } from './checkLog.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { exportText, signedText, type ExportFile, type Trailer } from './exportFile.ts'
import type { LogFault } from './fault.ts'
import { parseFault } from './parseFault.ts'
import type { Sha256 } from './seal.ts'
import { upgradeLog } from './upgrade.ts'

/** A log that passed every check but the signature, which needs the platform's crypto. */
export interface ReadLog {
  readonly log: DrawLog
  readonly trailer: Trailer
  /** What the signature must be over. */
  readonly signedText: string
  readonly upgradedFrom?: number
}

/**
 * Reads the text of an exported log. It only reads: a refusal leaves nothing half done.
 * Checked, in this order: JSON, format and version, numbers and hashes, shapes, times, the trailer's count and last
 * hash, its key name, and that the bytes are exactly those the app writes. The signature is left to the caller.
 */
export function readLog(
  text: string,
  sha256: Sha256,
): { readonly read: ReadLog } | { readonly error: LogFault } {
  let file: unknown
  try {
    file = JSON.parse(text)
  } catch (error) {
    return { error: parseFault(text, error) }
  }
  const { log, trailer } = (file ?? {}) as { log?: unknown; trailer?: unknown }
  const raw = log as DrawLog
  const fault =
    headFault(log, LOG_VERSION) ??
    checkChain(raw.entries, sha256) ??
    trailerFault(raw, trailer, sha256)
  if (fault) return { error: fault }
  const ended = trailer as Trailer
  const { log: current, from } = upgradeLog(raw, sha256)
  const body = entriesFault(current) ?? bytesFault(text, file as ExportFile)
  if (body) return { error: body }
  const read = { log: current, trailer: ended, signedText: signedText(raw, ended) }
  return { read: from === undefined ? read : { ...read, upgradedFrom: from } }
}

function trailerFault(log: DrawLog, trailer: unknown, sha256: Sha256): LogFault | undefined {
  const count = log.entries.length
  if (!isTrailer(trailer)) {
    const reason = 'The file has no proper end, so nothing shows that it is whole.'
    return { kind: 'truncated', seq: count + 1, reason }
  }
  if (trailer.entries > count) {
    const reason = `Entry ${count + 1} is missing: the file should hold ${trailer.entries} entries and holds ${count}.`
    return { kind: 'truncated', seq: count + 1, reason }
  }
  if (trailer.entries < count) {
    const seq = Math.max(0, trailer.entries) + 1
    const reason = `Entry ${seq} was added after the export of ${trailer.entries} entries.`
    return { kind: 'altered', seq, reason }
  }
  if (trailer.lastHash !== log.entries.at(-1)?.hash) {
    const reason = `Entry ${count} is not the one that the file was closed with.`
    return { kind: 'altered', seq: count, reason }
  }
  if (trailer.keyId !== keyIdOf(trailer.publicKey, sha256)) {
    return {
      kind: 'badSignature',
      seq: 0,
      reason: 'The name of the signing key does not fit the key.',
    }
  }
  return undefined
}

/** The short name of a public key. */
export function keyIdOf(publicKey: string, sha256: Sha256): string {
  return sha256(publicKey).slice(0, 16)
}

function isTrailer(value: unknown): value is Trailer {
  if (typeof value !== 'object' || value === null) return false
  const { entries, exportedAt, lastHash, publicKey, keyId, signature } = value as Trailer
  const hex = [lastHash, publicKey, keyId, signature]
  return (
    Number.isInteger(entries) &&
    Number.isFinite(exportedAt) &&
    hex.every((text) => typeof text === 'string' && /^[0-9a-f]+$/.test(text))
  )
}

/** Doubled keys, other escapes or added space mean the same JSON but are not what was exported. */
function bytesFault(text: string, file: ExportFile): LogFault | undefined {
  if (text === exportText(file)) return undefined
  return {
    kind: 'altered',
    seq: 0,
    reason: 'The text was changed after the export, if only in its spacing.',
  }
}
