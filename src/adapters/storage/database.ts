import { openDB, type DBSchema, type IDBPDatabase } from 'idb'
import type { LogEntry } from '../../core/protocol/entry.ts'
import type { StoredDraw } from '../../ports/logStore.ts'

export interface StillhandSchema extends DBSchema {
  /** One record an entry; the key makes a second entry with one number impossible, also from another tab. */
  entries: { key: [drawId: string, seq: number]; value: LogEntry }
  draws: { key: string; value: StoredDraw }
  settings: { key: string; value: string }
  /** The text of a draw that was brought in, as it came: the evidence its signature is over. */
  originals: { key: string; value: string }
}
export type Database = IDBPDatabase<StillhandSchema>

const VERSION = 2

/**
 * Opens the database of this device.
 * @throws Error in words, when the browser allows no storage or another tab keeps an older version open.
 */
export async function openDatabase(name = 'stillhand'): Promise<Database> {
  let refuse: (reason: Error) => void = () => undefined
  const blocked = new Promise<never>((_resolve, reject) => (refuse = reject))
  const opening = openDB<StillhandSchema>(name, VERSION, {
    upgrade: (db, from) => {
      if (from < 1) {
        db.createObjectStore('entries')
        db.createObjectStore('draws')
        db.createObjectStore('settings')
      }
      if (from < 2) db.createObjectStore('originals')
    },
    blocked: () =>
      refuse(new Error('Stillhand is open in another tab in an older version. Close that tab.')),
    // A newer version wants in: let go at once, so that it is never this tab that blocks.
    blocking: (_from, _to, event) => (event.target as IDBDatabase).close(),
  })
  return readable(Promise.race([opening, blocked]))
}

/** Turns the browser's error names into sentences. */
export async function readable<T>(work: Promise<T>): Promise<T> {
  try {
    return await work
  } catch (error) {
    throw new Error(sentence(error), { cause: error })
  }
}

function sentence(error: unknown): string {
  const { name, message } = error as { name?: string; message?: string }
  switch (name) {
    case 'QuotaExceededError':
      return 'The storage of this browser is full. Nothing was written. Export old draws and make room.'
    case 'ConstraintError':
      return 'This entry is already written and is never written again. Another tab may have this draw open.'
    case 'VersionError':
      return 'A newer Stillhand has been used here. Reload the page to get it.'
    case 'InvalidStateError':
      return 'The storage was closed by another tab or by the browser. Reload the page.'
    case 'SecurityError':
    case 'UnknownError':
      return `This browser does not let the page keep data (${message ?? name}). A private window may be the cause.`
    default:
      return message ?? String(error)
  }
}
