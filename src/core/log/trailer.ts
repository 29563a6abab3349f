import { canonicalJson } from './canonicalJson.ts'
import { logFault, type LogFault } from './fault.ts'
import type { Sha256 } from './seal.ts'

/**
 * What ends an exported part of a log: how long it is, where it ends, and the signature of the device that wrote it.
 */
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

/** What stands above the entries; the last hash of the trailer stands for the entries themselves. */
export interface SignedHead {
  readonly format: string
  readonly version: number
  readonly drawId: string
  /** In a part that continues a log: the hash of the entry it continues. */
  readonly follows?: string
}

/** A run of entries that one device signed. */
export interface SignedPart {
  readonly entries: number
  readonly trailer: Trailer
  /** What the signature must be over. */
  readonly signedText: string
}

/** The text a device signs: the head and the trailer without its signature. */
export function signedText(
  { format, version, drawId, follows }: SignedHead,
  trailer: Omit<Trailer, 'signature'> & { readonly signature?: string },
): string {
  const { signature: _signature, ...unsigned } = trailer
  return canonicalJson({ format, version, drawId, follows, ...unsigned })
}

/** The short name of a public key. */
export function keyIdOf(publicKey: string, sha256: Sha256): string {
  return sha256(publicKey).slice(0, 16)
}

/**
 * Says why a trailer does not close these entries. The signature itself is left to the platform's crypto.
 * @param before how many entries of the draw stand before this part
 */
export function trailerFault(
  entries: readonly { readonly hash: string }[],
  trailer: unknown,
  sha256: Sha256,
  before = 0,
): LogFault | undefined {
  const found = entries.length
  const end = before + found
  if (!isTrailer(trailer)) return logFault('noEnd', end + 1)
  const told = trailer.entries
  if (told > found) return logFault('tooFew', end + 1, { told, found })
  if (told < found) return logFault('addedLater', before + Math.max(0, told) + 1, { told })
  if (trailer.lastHash !== entries.at(-1)?.hash) return logFault('otherEnd', end)
  const named = trailer.keyId === keyIdOf(trailer.publicKey, sha256)
  return named ? undefined : logFault('keyName')
}

function isTrailer(value: unknown): value is Trailer {
  if (typeof value !== 'object' || value === null) return false
  const { entries, exportedAt, lastHash, publicKey, keyId, signature } = value as Trailer
  const hex = [lastHash, publicKey, keyId, signature]
  return (
    Number.isInteger(entries) &&
    Number.isInteger(exportedAt) &&
    hex.every((text) => typeof text === 'string' && /^[0-9a-f]+$/.test(text))
  )
}
