import { appendFault } from '../../core/log/appendFault.ts'
import type { LogEntry } from '../../core/protocol/entry.ts'
import type { LogStore } from '../../ports/logStore.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'
import { readable, type Database } from './database.ts'
import { byOpening, storedDraw } from './storedDraw.ts'

/** `strict`: the promise of a transaction resolves only when the data is on the disk. */
const STRICT: IDBTransactionOptions = { durability: 'strict' }

/** Keeps logs in IndexedDB. It has no way to change or delete an entry. */
export function createIndexedDbLogStore(db: Database): LogStore {
  return {
    append: (drawId, entries) => readable(write(db, drawId, entries)),
    adopt: (log, original) => readable(write(db, log.drawId, log.entries, original)),
    original: (drawId) => readable(db.get('originals', drawId)),
    load: (drawId) =>
      readable(
        db.getAll('entries', allOf(drawId)).then((entries) => {
          if (entries.length === 0) return undefined
          return { format: 'stillhand-log', version: 1, drawId, entries } as const
        }),
      ),
    list: () => readable(db.getAll('draws').then((draws) => draws.sort(byOpening))),
  }
}

export function createIndexedDbSettingsStore(db: Database): SettingsStore {
  return {
    read: (key) => readable(db.get('settings', key)),
    write: (key, json) => readable(db.put('settings', json, key).then(() => undefined)),
  }
}

/** Every entry number is at least 1 and below any text, which sorts after all numbers. */
const allOf = (drawId: string): IDBKeyRange => IDBKeyRange.bound([drawId, 0], [drawId, ''])

/**
 * Looks at the end of the log and writes behind it in one transaction, so that two tabs cannot both do so.
 * With an `original` the draw must be new here.
 */
async function write(
  db: Database,
  drawId: string,
  entries: readonly LogEntry[],
  original?: string,
): Promise<void> {
  const tx = db.transaction(['entries', 'draws', 'originals'], 'readwrite', STRICT)
  // Also waited for when a request fails, so that an aborted transaction never is an unhandled rejection.
  const done = tx.done
  done.catch(() => undefined)
  try {
    const last = (await tx.objectStore('entries').openCursor(allOf(drawId), 'prev'))?.value
    if (original !== undefined && last) throw new Error(`Draw ${drawId} is already on this device.`)
    const fault = appendFault(last, entries)
    if (fault) throw new Error(fault)
    const known = await tx.objectStore('draws').get(drawId)
    const adding = entries.map((entry) => tx.objectStore('entries').add(entry, [drawId, entry.seq]))
    const summary = tx.objectStore('draws').put(storedDraw(drawId, known, entries), drawId)
    const kept = original === undefined ? [] : [tx.objectStore('originals').add(original, drawId)]
    await Promise.all([...adding, summary, ...kept])
  } catch (error) {
    abort(tx)
    throw error
  }
  await done
}

function abort(tx: { abort(): void }): void {
  try {
    tx.abort()
  } catch {
    // It had already ended; there is nothing left to undo.
  }
}
