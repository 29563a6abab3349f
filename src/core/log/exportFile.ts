import type { DrawLog, LogEntry } from '../protocol/entry.ts'
import { canonicalJson } from './canonicalJson.ts'
import { NO_PREVIOUS } from './seal.ts'
import { signedText, type SignedHead, type Trailer } from './trailer.ts'

export interface ExportFile {
  readonly log: DrawLog
  readonly trailer: Trailer
}

/** What one device added to a log that another had signed. It stands behind that log and never in it. */
export interface LogPart extends SignedHead {
  readonly format: 'stillhand-log-part'
  readonly version: 1
  readonly follows: string
  readonly entries: readonly LogEntry[]
}

export interface PartFile {
  readonly part: LogPart
  readonly trailer: Trailer
}

export interface SigningKey {
  readonly publicKey: string
  readonly keyId: string
}

/** Signs text with a key that stays where it is; gives lower-case hex. */
export type Sign = (text: string) => Promise<string>

/** Tells whether `signature` over `text` was made with `publicKey`; all but the text in hex. */
export type VerifySignature = (
  publicKey: string,
  text: string,
  signature: string,
) => Promise<boolean>

/** Closes a log for leaving the device. */
export async function exportLog(
  log: DrawLog,
  exportedAt_ms: number,
  key: SigningKey,
  sign: Sign,
): Promise<ExportFile> {
  // Only what a log is made of: a log read from a store may carry what was found wrong with it.
  const { format, version, drawId, entries } = log
  const bare: DrawLog = { format, version, drawId, entries }
  return { log: bare, trailer: await trailerOf(bare, entries, exportedAt_ms, key, sign) }
}

/** Closes the entries that were added behind a log that is signed already, as a part of their own. */
export async function exportPart(
  log: DrawLog,
  signed: number,
  exportedAt_ms: number,
  key: SigningKey,
  sign: Sign,
): Promise<PartFile> {
  const entries = log.entries.slice(signed)
  const part: LogPart = {
    format: 'stillhand-log-part',
    version: 1,
    drawId: log.drawId,
    follows: log.entries[signed - 1]?.hash ?? NO_PREVIOUS,
    entries,
  }
  return { part, trailer: await trailerOf(part, entries, exportedAt_ms, key, sign) }
}

async function trailerOf(
  head: SignedHead,
  entries: readonly LogEntry[],
  now_ms: number,
  { publicKey, keyId }: SigningKey,
  sign: Sign,
): Promise<Trailer> {
  const last = entries.at(-1)
  const unsigned = {
    entries: entries.length,
    lastHash: last?.hash ?? NO_PREVIOUS,
    // A clock set back since must not make the export older than what it holds.
    exportedAt: Math.round(Math.max(now_ms, last?.at.at_ms ?? now_ms)),
    publicKey,
    keyId,
  }
  return { ...unsigned, signature: await sign(signedText(head, unsigned)) }
}

/**
 * The file, byte for byte: canonical JSON and a line feed, so that even a changed space is found. A line holds no
 * other line feed, so a part that is added later is one more line behind bytes that stay as they were.
 */
export function exportText(file: ExportFile | PartFile): string {
  return `${canonicalJson(file)}\n`
}
