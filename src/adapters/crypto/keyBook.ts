import { isRecord } from '../../core/basics/isRecord.ts'
import { isHex, isPublicKey } from '../../core/hub/wrappedKeys.ts'
import { StorageError } from '../../ports/storageFault.ts'
import { sha256 } from './sha256.ts'

/** What a device keeps of the clinic's keys. All hex. */
export interface KeyBook {
  readonly version: 1
  /** The pair to which others wrap: SPKI and PKCS #8. */
  readonly publicKey: string
  readonly privateKey: string
  /** Name of the key in force. */
  readonly current?: string
  /** Oldest first, 32 bytes each. */
  readonly keys: readonly string[]
}

/** A key's name is a digest of it: it tells nothing of 256 random bits, and no other key can have it. */
export const nameOfKey = (key: string): string => sha256(`stillhand clinic key ${key}`).slice(0, 32)

/** @throws StorageError `damaged` */
export function readKeyBook(text: string): KeyBook {
  const book = parsed(text)
  const isBook =
    isRecord(book) &&
    book.version === 1 &&
    isPublicKey(book.publicKey) &&
    isHex(book.privateKey, 100, 1000) &&
    (book.current === undefined || isHex(book.current, 32, 32)) &&
    isKeys(book.keys)
  if (!isBook) throw new StorageError('damaged', 'The keys of the clinic cannot be read.')
  return book as unknown as KeyBook
}

/** @throws StorageError `damaged` for anything but a list of keys */
export function readWrapped(text: string): readonly string[] {
  const keys = parsed(text)
  if (!isKeys(keys) || keys.length === 0) throw new StorageError('damaged', 'These are no keys.')
  return keys
}

const isKeys = (value: unknown): value is readonly string[] =>
  Array.isArray(value) && value.every((key) => isHex(key, 64, 64))

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}
