import { hmac } from '@noble/hashes/hmac.js'
import { sha256 as hash } from '@noble/hashes/sha2.js'
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'
import type { JoinCrypto } from '../../ports/joinCrypto.ts'
import { fromHex, toHex } from './hex.ts'
import { sha256 } from './sha256.ts'
import { newParameters, type SlowKey } from './slowKey.ts'

/** Joining over the slow key of PINs, with what both sides have seen as its salt. */
export function createJoinCrypto(slowKey: SlowKey): JoinCrypto {
  return {
    key: async (code, transcript) => {
      const parameters = newParameters(fromHex(sha256(transcript)))
      return toHex((await slowKey(code, parameters)).buffer)
    },
    mac: (key, text) => bytesToHex(hmac(hash, fromHex(key), utf8ToBytes(text))),
    lot: (bytes_n) => crypto.getRandomValues(new Uint8Array(bytes_n)),
  }
}
