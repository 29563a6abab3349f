import type { VerifySignature } from '../../core/log/exportFile.ts'
import { fromHex } from './hex.ts'
import { ECDSA_P256, ECDSA_SHA256 } from './algorithms.ts'

/** Checks an ECDSA P-256 signature by WebCrypto, in a browser or in Node, with no network. False for malformed hex. */
export const verifySignature: VerifySignature = async (publicKey, text, signature) => {
  try {
    const key = await crypto.subtle.importKey('spki', fromHex(publicKey), ECDSA_P256, false, [
      'verify',
    ])
    const bytes = new TextEncoder().encode(text)
    return await crypto.subtle.verify(ECDSA_SHA256, key, fromHex(signature), bytes)
  } catch {
    return false
  }
}
