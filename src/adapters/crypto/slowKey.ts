import { scrypt } from '@noble/hashes/scrypt.js'
import { fromHex, toHex } from './hex.ts'
import type { SlowKeyParameters } from '../../ports/vault.ts'

/**
 * Makes 32 bytes of a PIN, slowly and with much memory. scrypt with N 2^17, r 8, p 1 (128 MiB) is the strongest of the
 * settings that OWASP's Password Storage Cheat Sheet lists for it; from memory. Argon2id would need WebAssembly to be
 * as costly to an attacker in the same time, and the page's content policy allows none.
 */
export type SlowKey = (
  pin: string,
  parameters: SlowKeyParameters,
) => Promise<Uint8Array<ArrayBuffer>>

const MOST_MEMORY_bytes = 2 ** 30

export function newParameters(salt: Uint8Array<ArrayBuffer>): SlowKeyParameters {
  return { name: 'scrypt', N: 2 ** 17, r: 8, p: 1, salt: toHex(salt.buffer) }
}

/** Makes the key at once; nothing else runs meanwhile. */
export function slowKeyNow(pin: string, parameters: SlowKeyParameters): Uint8Array<ArrayBuffer> {
  const { N, r, p, salt } = parameters
  const options = { N, r, p, dkLen: 32, maxmem: MOST_MEMORY_bytes }
  return Uint8Array.from(scrypt(new TextEncoder().encode(pin), fromHex(salt), options))
}
