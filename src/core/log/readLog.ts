import { faulty, ok, type Result } from '../basics/result.ts'
import { defined } from '../basics/defined.ts'
import { parseJson } from '../text/parseJson.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { checkChain } from './checkChain.ts'
import { entriesFault, headFault, LOG_VERSION } from './checkLog.ts'
import { exportText, type ExportFile, type VerifySignature } from './exportFile.ts'
import { logFault, type LogFault } from './fault.ts'
import { parseFault } from './parseFault.ts'
import { readParts } from './readParts.ts'
import type { Sha256 } from './seal.ts'
import { exportTimeFault, impossible } from './sense/impossible.ts'
import { signedText, trailerFault, type SignedPart } from './trailer.ts'
import { unsignedFault } from './unsignedFault.ts'
import { upgradeLog, type Upgraded } from './upgrade.ts'

/** A log that passed every check but the signatures, which need the platform's crypto: see `signatureFault`. */
export interface ReadLog {
  readonly log: DrawLog
  /** The log as it was first exported, then what other devices added to it, in order. */
  readonly parts: readonly [SignedPart, ...SignedPart[]]
  readonly upgradedFrom?: number
}

/**
 * Reads the text of an exported log. It only reads: a refusal leaves nothing half done.
 * Checked, in this order: JSON, format and version, fields that no signature covers, numbers and hashes, the
 * trailer's count, last hash and key name, shapes, times, and that the bytes are exactly those the app writes; then
 * the same for each part added behind it; at last whether what is told can have been so.
 */
export function readLog(text: string, sha256: Sha256): Result<ReadLog, LogFault> {
  const [first, rest] = firstLine(text)
  const json = parseJson(first)
  if (!json.ok) return faulty(json.faults.map((fault) => parseFault(first, fault)))
  const file = (json.value ?? {}) as ExportFile
  const fault =
    headFault(file.log, LOG_VERSION) ??
    unsignedFault(file, ['log', 'trailer']) ??
    unsignedFault(file.log, ['format', 'version', 'drawId', 'entries']) ??
    checkChain(file.log.entries, sha256) ??
    trailerFault(file.log.entries, file.trailer, sha256)
  if (fault) return faulty([fault])
  const upgraded = upgradedLog(file.log, sha256)
  if (!upgraded) return faulty([logFault('notAnEntry', 1)])
  const { log, from } = upgraded
  const body = entriesFault(log) ?? bytesFault(first, file)
  if (body) return faulty([body])
  const signed: SignedPart = {
    entries: log.entries.length,
    trailer: file.trailer,
    signedText: signedText(file.log, file.trailer),
  }
  const later = readParts(log, rest, sha256)
  if (!later.ok) return later
  const parts = [signed, ...later.value.parts] as const
  const odd =
    impossible(later.value.log) ??
    parts.map(({ trailer }) => exportTimeFault(log, trailer)).find(Boolean)
  if (odd) return faulty([odd])
  return ok(defined({ log: later.value.log, parts, upgradedFrom: from }))
}

/**
 * The first signature that does not fit what it should be over, or `undefined`.
 * Each ECDSA signature has a twin (r, n - s) that anybody can work out and that fits as well. It is let be: it changes
 * no entry and no signer, and nothing is known by its signature here, a draw is known by its number.
 */
export async function signatureFault(
  { parts }: Pick<ReadLog, 'parts'>,
  verify: VerifySignature,
): Promise<LogFault | undefined> {
  for (const { trailer, signedText: text } of parts) {
    const good = await verify(trailer.publicKey, text, trailer.signature)
    if (!good) return logFault('signature', 0, { keyId: trailer.keyId })
  }
  return undefined
}

/** A whole log stands on the first line; what is behind it are parts. A text of another make is taken as one. */
function firstLine(text: string): readonly [first: string, rest: string] {
  const end = text.indexOf('\n') + 1
  const first = text.slice(0, end)
  return end > 0 && end < text.length && parseJson(first).ok ? [first, text.slice(end)] : [text, '']
}

/** `undefined` where the entries are not of the version that the file says. */
function upgradedLog(raw: DrawLog, sha256: Sha256): Upgraded | undefined {
  try {
    return upgradeLog(raw, sha256)
  } catch {
    return undefined
  }
}

/** Other escapes or added space mean the same JSON but are not what was exported. */
function bytesFault(text: string, file: ExportFile): LogFault | undefined {
  return text === exportText(file) ? undefined : logFault('otherText')
}
