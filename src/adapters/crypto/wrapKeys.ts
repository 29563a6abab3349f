import type { WrappedKeys } from '../../core/hub/wrappedKeys.ts'
import { dataKeyOf, sealText, unsealText } from './dataKey.ts'
import { fromHex, toHex } from './hex.ts'

export const ECDH_P256 = { name: 'ECDH', namedCurve: 'P-256' } as const
const CONTEXT = 'stillhand clinic keys'
const utf8 = (text: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(new TextEncoder().encode(text))

/**
 * Seals a text for whoever has the private half of a public key: an ECDH key pair made for this once, HKDF with
 * SHA-256 over both public keys, AES-256-GCM. The construction is that of ECIES and of HPKE's base mode (RFC 9180,
 * section 4.1), which browsers do not offer; it proves nothing about who sealed.
 * @param publicKey SPKI in hex
 */
export async function wrapText(publicKey: string, text: string): Promise<WrappedKeys> {
  const to = await crypto.subtle.importKey('spki', fromHex(publicKey), ECDH_P256, false, [])
  const once = await crypto.subtle.generateKey(ECDH_P256, true, ['deriveBits'])
  const from = toHex(await crypto.subtle.exportKey('spki', once.publicKey))
  const key = await sharedKey(once.privateKey, to, from, publicKey)
  const { iv, data } = await sealText(key, CONTEXT, text)
  return { from, iv: toHex(iv.buffer), data: toHex(data.buffer) }
}

/**
 * @param publicKey of the pair that the text was sealed for
 * @throws StorageError `damaged` for what was not sealed for it, or was changed
 */
export async function unwrapText(
  privateKey: CryptoKey,
  publicKey: string,
  { from, iv, data }: WrappedKeys,
): Promise<string> {
  const by = await crypto.subtle.importKey('spki', fromHex(from), ECDH_P256, false, [])
  const key = await sharedKey(privateKey, by, from, publicKey)
  return unsealText(key, CONTEXT, { iv: fromHex(iv), data: fromHex(data) })
}

async function sharedKey(
  mine: CryptoKey,
  theirs: CryptoKey,
  from: string,
  to: string,
): Promise<CryptoKey> {
  const bits = await crypto.subtle.deriveBits({ name: 'ECDH', public: theirs }, mine, 256)
  const base = await crypto.subtle.importKey('raw', bits, 'HKDF', false, ['deriveBits'])
  const algorithm = {
    name: 'HKDF',
    hash: 'SHA-256',
    salt: new Uint8Array(),
    info: utf8(`${CONTEXT}/${from}/${to}`),
  }
  const key = await crypto.subtle.deriveBits(algorithm, base, 256)
  return dataKeyOf(new Uint8Array(key))
}
