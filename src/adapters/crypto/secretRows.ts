import { openDB } from 'idb'
import { isRecord } from '../../core/basics/isRecord.ts'
import type { Clock } from '../../ports/clock.ts'
import { within } from '../../ports/patience.ts'
import type { SecretName } from '../../ports/secretStore.ts'
import { StorageError } from '../../ports/storageFault.ts'
import type { Sealed } from '../../ports/vault.ts'

/** A text as it is kept. */
export interface SecretRow extends Sealed {
  readonly by: 'vault' | 'device'
  /** Counts changes, so that one page sees that another was first. */
  readonly revision: number
}

export interface SecretRows {
  read(name: SecretName): Promise<SecretRow | undefined>
  /** Puts a row behind exactly that revision, 0 for none; false when something else stands there. */
  swap(name: SecretName, behind: number, row: SecretRow): Promise<boolean>
  clear(): Promise<void>
  /** The key that seals while there is no PIN: made on first use, and scripts cannot read it out. */
  key(): Promise<CryptoKey>
}

const newKey = (): Promise<CryptoKey> =>
  crypto.subtle.generateKey({ name: 'AES-GCM', length: 256 }, false, ['encrypt', 'decrypt'])

/** Keeps nothing longer than the page lives. */
export function createMemorySecretRows(): SecretRows {
  const rows = new Map<SecretName, SecretRow>()
  let key: Promise<CryptoKey> | undefined
  return {
    read: (name) => Promise.resolve(rows.get(name)),
    swap: (name, behind, row) => {
      const isBehind = (rows.get(name)?.revision ?? 0) === behind
      if (isBehind) rows.set(name, row)
      return Promise.resolve(isBehind)
    },
    clear: () => Promise.resolve(rows.clear()),
    key: () => (key ??= newKey()),
  }
}

const KEY = 'secrets-key'
const nameOf = (name: SecretName): string => `secret-${name}`

/** A record that was damaged is told, never taken for one that is not there. */
function rowOf(stored: unknown, name: SecretName): SecretRow | undefined {
  if (stored === undefined) return undefined
  if (!isRecord(stored)) throw new StorageError('damaged', `The secret ${name} is no record.`)
  const { by, revision, iv, data } = stored
  const isRow =
    (by === 'vault' || by === 'device') &&
    Number.isSafeInteger(revision) &&
    iv instanceof Uint8Array &&
    data instanceof Uint8Array
  if (!isRow) throw new StorageError('damaged', `The secret ${name} is no record.`)
  return stored as unknown as SecretRow
}

interface Keys {
  get(key: string): Promise<unknown>
  put(value: unknown, key: string): Promise<unknown>
  delete(key: string): Promise<void>
  getAllKeys(): Promise<IDBValidKey[]>
}
type Work<T> = (keys: Keys) => Promise<T>

/** Beyond this it counts as not done. What was given up may still happen: a row is put behind a revision only. */
const PATIENCE_ms = 2000

/** In the database of this browser's keys, beside the one that signs exports. */
export function createBrowserSecretRows(clock: Clock, databaseName = 'stillhand-key'): SecretRows {
  const late = (): StorageError => new StorageError('hanging', 'The keys do not answer.')
  const inKeys = <T>(work: Work<T>): Promise<T> => within(clock, PATIENCE_ms, open(work), late)
  async function open<T>(work: Work<T>): Promise<T> {
    const db = await openDB(databaseName, 1, { upgrade: (d) => void d.createObjectStore('keys') })
    try {
      const tx = db.transaction('keys', 'readwrite', { durability: 'strict' })
      const [outcome] = await Promise.all([work(tx.store), tx.done])
      return outcome
    } finally {
      db.close()
    }
  }
  return {
    read: (name) => inKeys(async (keys) => rowOf(await keys.get(nameOf(name)), name)),
    swap: (name, behind, row) =>
      inKeys(async (keys) => {
        const now = rowOf(await keys.get(nameOf(name)), name)
        if ((now?.revision ?? 0) !== behind) return false
        await keys.put(row, nameOf(name))
        return true
      }),
    clear: () =>
      inKeys(async (keys) => {
        for (const key of await keys.getAllKeys()) {
          if (typeof key === 'string' && key.startsWith('secret')) await keys.delete(key)
        }
      }),
    async key() {
      const made = await newKey()
      return inKeys(async (keys) => {
        // Another tab may have made one meanwhile: the first one stays.
        const known = await keys.get(KEY)
        if (known instanceof CryptoKey) return known
        await keys.put(made, KEY)
        return made
      })
    },
  }
}
