import { canonicalJson } from './canonicalJson.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { NO_PREVIOUS } from './seal.ts'

/** What ends an exported log: how long it is, where it ends, and the signature of the device that wrote it. */
export interface Trailer {
  readonly entries: number
  readonly lastHash: string
  /** Unix ms. */
  readonly exportedAt: number
  /** SPKI of an ECDSA P-256 key, lower-case hex. */
  readonly publicKey: string
  /** First 16 hex digits of the SHA-256 of that hex text: short enough to compare by eye. */
  readonly keyId: string
  /** ECDSA with SHA-256 over `signedText`, r and s as lower-case hex. */
  readonly signature: string
}

export interface ExportFile {
  readonly log: DrawLog
  readonly trailer: Trailer
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
  key: { readonly publicKey: string; readonly keyId: string },
  sign: Sign,
): Promise<ExportFile> {
  const unsigned = {
    entries: log.entries.length,
    lastHash: log.entries.at(-1)?.hash ?? NO_PREVIOUS,
    exportedAt: exportedAt_ms,
    publicKey: key.publicKey,
    keyId: key.keyId,
  }
  const signature = await sign(signedText(log, unsigned))
  return { log, trailer: { ...unsigned, signature } }
}

/** The text a device signs: the head of the log and the trailer; the last hash stands for every entry. */
export function signedText(
  log: Pick<DrawLog, 'format' | 'version' | 'drawId'>,
  trailer: Omit<Trailer, 'signature'> & { readonly signature?: string },
): string {
  const { signature: _signature, ...unsigned } = trailer
  const { format, version, drawId } = log
  return canonicalJson({ format, version, drawId, ...unsigned })
}

/** The file, byte for byte: canonical JSON and a line feed, so that even a changed space is found. */
export function exportText(file: ExportFile): string {
  return `${canonicalJson(file)}\n`
}
