import { isRecord } from '../basics/isRecord.ts'

/** The clinic's keys, sealed so that one device alone opens them. All hex. */
export interface WrappedKeys {
  /** Public half of the key pair that was made for this wrapping alone: ECDH P-256, SPKI. */
  readonly from: string
  readonly iv: string
  readonly data: string
}

/** SPKI of a key on P-256 has 91 bytes (RFC 5480: 26 of head, 65 of an uncompressed point). */
export const isPublicKey = (value: unknown): value is string =>
  typeof value === 'string' &&
  /^3059301306072a8648ce3d020106082a8648ce3d03010703420004[0-9a-f]{128}$/.test(value)

/** More than a clinic that changes its key every day for ten years would send. */
const DATA_MAX_hex = 600_000

export function isWrappedKeys(value: unknown): value is WrappedKeys {
  if (!isRecord(value)) return false
  const { from, iv, data } = value
  return isPublicKey(from) && isHex(iv, 24, 24) && isHex(data, 32, DATA_MAX_hex)
}

/** Pairs of lower-case hex digits, so many digits. */
export const isHex = (value: unknown, least: number, most: number): value is string =>
  typeof value === 'string' &&
  value.length >= least &&
  value.length <= most &&
  /^([0-9a-f]{2})*$/.test(value)
