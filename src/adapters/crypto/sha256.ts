import { sha256 as hash } from '@noble/hashes/sha2.js'
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'

/** SHA-256 of a text's UTF-8 bytes in lower-case hex; without waiting, and also where WebCrypto is not to be had. */
export function sha256(text: string): string {
  return bytesToHex(hash(utf8ToBytes(text)))
}
