import type { Sha256 } from '../log/seal.ts'

/**
 * A UUID that always is the same for the same text: version 8 of RFC 9562 (content of the maker's own choice), here
 * the first 122 bits of SHA-256. So the same log always gives the same bundle.
 */
export function uuidOf(text: string, sha256: Sha256): string {
  const hex = sha256(text)
  const variant = '89ab'[Number.parseInt(hex[16] ?? '0', 16) & 3] ?? '8'
  return [
    hex.slice(0, 8),
    hex.slice(8, 12),
    `8${hex.slice(13, 16)}`,
    `${variant}${hex.slice(17, 20)}`,
    hex.slice(20, 32),
  ].join('-')
}
