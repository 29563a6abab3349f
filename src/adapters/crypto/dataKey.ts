import { StorageError } from '../../ports/storageFault.ts'
import type { Sealed, WrappedKey } from '../../ports/vault.ts'
import { fromHex, toHex } from './hex.ts'

const AES = 'AES-GCM'
/** Random for each message. NIST SP 800-38D allows 2^32 messages of 96 bits under one key; from memory. */
const IV_bytes = 12

const freshIv = (): Uint8Array<ArrayBuffer> => crypto.getRandomValues(new Uint8Array(IV_bytes))
const utf8 = (text: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(new TextEncoder().encode(text))

/** A new key for everything that is stored, as raw bytes that exist only until they are wrapped. */
export function freshKeyBytes(): Uint8Array<ArrayBuffer> {
  return crypto.getRandomValues(new Uint8Array(32))
}

/** The key in the form it is used in: it cannot be read out again. */
export function dataKeyOf(bytes: Uint8Array<ArrayBuffer>): Promise<CryptoKey> {
  return crypto.subtle.importKey('raw', bytes, AES, false, ['encrypt', 'decrypt'])
}

/** Encrypts the data key. `label` is bound to it, so that one wrapping never stands in for another. */
export async function wrapKey(
  bytes: Uint8Array<ArrayBuffer>,
  by: Uint8Array<ArrayBuffer>,
  label: string,
): Promise<WrappedKey> {
  const iv = freshIv()
  const key = await dataKeyOf(by)
  const algorithm = { name: AES, iv, additionalData: utf8(label) }
  return { iv: toHex(iv.buffer), key: toHex(await crypto.subtle.encrypt(algorithm, key, bytes)) }
}

/** The data key again; `undefined` for the wrong key, label or bytes. */
export async function unwrapKey(
  wrapped: WrappedKey,
  by: Uint8Array<ArrayBuffer>,
  label: string,
): Promise<Uint8Array<ArrayBuffer> | undefined> {
  try {
    const algorithm = { name: AES, iv: fromHex(wrapped.iv), additionalData: utf8(label) }
    const key = await dataKeyOf(by)
    return new Uint8Array(await crypto.subtle.decrypt(algorithm, key, fromHex(wrapped.key)))
  } catch {
    return undefined
  }
}

export async function sealText(key: CryptoKey, context: string, text: string): Promise<Sealed> {
  const iv = freshIv()
  const algorithm = { name: AES, iv, additionalData: utf8(context) }
  return { iv, data: new Uint8Array(await crypto.subtle.encrypt(algorithm, key, utf8(text))) }
}

/** @throws StorageError `damaged` when the bytes, the context or the key are not those it was sealed with */
export async function unsealText(
  key: CryptoKey,
  context: string,
  { iv, data }: Sealed,
): Promise<string> {
  try {
    const algorithm = { name: AES, iv, additionalData: utf8(context) }
    return new TextDecoder().decode(await crypto.subtle.decrypt(algorithm, key, data))
  } catch (error) {
    throw new StorageError('damaged', `What is sealed at ${context} does not open.`, error)
  }
}

/** A key of the 160 random bits of a recovery key, which need no slowness. */
export async function recoveryBytes(
  secret: Uint8Array<ArrayBuffer>,
  salt: string,
): Promise<Uint8Array<ArrayBuffer>> {
  const base = await crypto.subtle.importKey('raw', secret, 'HKDF', false, ['deriveBits'])
  const info = utf8('stillhand recovery key')
  const algorithm = { name: 'HKDF', hash: 'SHA-256', salt: fromHex(salt), info }
  return new Uint8Array(await crypto.subtle.deriveBits(algorithm, base, 256))
}
