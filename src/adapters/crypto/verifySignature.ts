import type { VerifySignature } from '../../core/log/exportFile.ts'
import { fromHex } from './hex.ts'
import { ECDSA_P256, ECDSA_SHA256 } from './algorithms.ts'

/** So many devices a clinic has at most; a key is read once and not for each entry of its device. */
const KEYS_MOST_n = 64
const keys = new Map<string, Promise<CryptoKey>>()

function keyOf(publicKey: string): Promise<CryptoKey> {
  const known = keys.get(publicKey)
  if (known) return known
  const bytes = fromHex(publicKey)
  const key = crypto.subtle.importKey('spki', bytes, ECDSA_P256, false, ['verify'])
  if (keys.size >= KEYS_MOST_n) keys.clear()
  keys.set(publicKey, key)
  // What failed once is tried again.
  key.catch(() => keys.delete(publicKey))
  return key
}

/** Checks an ECDSA P-256 signature by WebCrypto, in a browser or in Node, with no network. False for malformed hex. */
export const verifySignature: VerifySignature = async (publicKey, text, signature) => {
  try {
    const key = await keyOf(publicKey)
    const bytes = new TextEncoder().encode(text)
    return await crypto.subtle.verify(ECDSA_SHA256, key, fromHex(signature), bytes)
  } catch {
    return false
  }
}
