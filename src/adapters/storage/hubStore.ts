import type { IDBPObjectStore, StoreNames } from 'idb'
import { HUB_START } from '../../core/hub/hubEntry.ts'
import type { HubRead, HubStore, LogNote } from '../../ports/hubStore.ts'
import { WRITE_PATIENCE_ms, type Connection } from './connection.ts'
import { inTransaction } from './inTransaction.ts'
import type { HubRow, StillhandSchema } from './schema.ts'

const BEGINNING: HubRead = { past: 0, position: HUB_START }

const STORES = ['hubEntries', 'hubNotes', 'hubRead'] as const

/** Keeps what was read of the clinic's hub in IndexedDB. It is sealed under the clinic's key as it comes. */
export function createIndexedDbHubStore(connection: Connection): HubStore {
  return {
    read: async () => (await connection.run((db) => db.get('hubRead', 'read'))) ?? BEGINNING,
    add: async (past, entries) => {
      const last = entries.at(-1)
      if (!last) return
      const { sequence, at_ms } = last
      await connection.run(
        (db) =>
          inTransaction(db, STORES, async (tx) => {
            const erased = new Set<string>()
            for (const log of new Set(entries.map((entry) => entry.log))) {
              if ((await tx.objectStore('hubNotes').get(log))?.isErased) erased.add(log)
            }
            for (const entry of entries) {
              if (erased.has(entry.log)) continue
              await tx.objectStore('hubEntries').put({ past, entry }, [past, entry.sequence])
            }
            const read = tx.objectStore('hubRead')
            const known = await read.get('read')
            // Another page of this device may have read further.
            const isBehind = known && (known.past > past || isFurther(known, past, sequence))
            if (!isBehind) await read.put({ past, position: { sequence, at_ms } }, 'read')
          }),
        WRITE_PATIENCE_ms,
      )
    },
    beginPast: (past) =>
      connection.run(
        (db) =>
          inTransaction(db, ['hubRead'], async (tx) => {
            const known = await tx.objectStore('hubRead').get('read')
            if ((known?.past ?? 0) < past)
              await tx.objectStore('hubRead').put({ past, position: HUB_START }, 'read')
          }),
        WRITE_PATIENCE_ms,
      ),
    entries: () => connection.run((db) => db.getAll('hubEntries')),
    notes: () => connection.run((db) => db.getAll('hubNotes')),
    note: (note) =>
      connection.run(
        (db) =>
          inTransaction(db, ['hubNotes'], async (tx) => {
            const known = await tx.objectStore('hubNotes').get(note.log)
            await tx.objectStore('hubNotes').put(withErased(note, known), note.log)
          }),
        WRITE_PATIENCE_ms,
      ),
    eraseBefore: (at_ms) =>
      connection.run(
        (db) =>
          inTransaction(db, ['hubEntries'], (tx) =>
            eraseRows(tx.objectStore('hubEntries'), ({ entry }) => entry.at_ms < at_ms),
          ),
        WRITE_PATIENCE_ms,
      ),
    eraseLog: (log) =>
      connection.run(
        (db) =>
          inTransaction(db, ['hubEntries', 'hubNotes'], async (tx) => {
            await eraseRows(tx.objectStore('hubEntries'), ({ entry }) => entry.log === log)
            const known = await tx.objectStore('hubNotes').get(log)
            await tx.objectStore('hubNotes').put(erasedNote(log, known), log)
          }),
        WRITE_PATIENCE_ms,
      ),
    clear: () =>
      connection.run(
        (db) =>
          inTransaction(db, STORES, async (tx) => {
            for (const store of STORES) await tx.objectStore(store).clear()
          }),
        WRITE_PATIENCE_ms,
      ),
  }
}

/** Takes rows away, by what they hold. */
async function eraseRows(
  rows: IDBPObjectStore<StillhandSchema, StoreNames<StillhandSchema>[], 'hubEntries', 'readwrite'>,
  isGone: (row: HubRow) => boolean,
): Promise<void> {
  let cursor = await rows.openCursor()
  while (cursor) {
    if (isGone(cursor.value)) await cursor.delete()
    cursor = await cursor.continue()
  }
}

const withErased = (note: LogNote, known: LogNote | undefined): LogNote =>
  known?.isErased ? { ...note, isErased: true } : { ...note }

const erasedNote = (log: string, known: LogNote | undefined): LogNote => ({
  ...(known ?? { log, confirmed: 0, hasTaken: false }),
  isErased: true,
})

const isFurther = (known: HubRead, past: number, sequence: number): boolean =>
  known.past === past && known.position.sequence > sequence

/** Keeps what was read of the hub until the page is closed: for tests, and where the browser allows no storage. */
export function createMemoryHubStore(): HubStore {
  let rows = new Map<string, HubRow>()
  let read = BEGINNING
  const notes = new Map<string, LogNote>()
  return {
    read: () => Promise.resolve(read),
    add: (past, entries) => {
      for (const entry of entries) {
        if (notes.get(entry.log)?.isErased) continue
        rows.set(`${past} ${entry.sequence}`, structuredClone({ past, entry }))
      }
      const { sequence, at_ms } = entries.at(-1) ?? HUB_START
      const isBehind = read.past > past || isFurther(read, past, sequence)
      if (entries.length > 0 && !isBehind) read = { past, position: { sequence, at_ms } }
      return Promise.resolve()
    },
    beginPast: (past) => {
      if (read.past < past) read = { past, position: HUB_START }
      return Promise.resolve()
    },
    entries: () =>
      Promise.resolve(
        structuredClone([...rows.values()]).sort(
          (a, b) => a.past - b.past || a.entry.sequence - b.entry.sequence,
        ),
      ),
    notes: () => Promise.resolve([...notes.values()].sort((a, b) => (a.log < b.log ? -1 : 1))),
    note: (note) =>
      Promise.resolve(void notes.set(note.log, withErased(note, notes.get(note.log)))),
    eraseBefore: (at_ms) => {
      rows = new Map([...rows].filter(([, { entry }]) => entry.at_ms >= at_ms))
      return Promise.resolve()
    },
    eraseLog: (log) => {
      rows = new Map([...rows].filter(([, { entry }]) => entry.log !== log))
      notes.set(log, erasedNote(log, notes.get(log)))
      return Promise.resolve()
    },
    clear: () => {
      rows = new Map()
      notes.clear()
      read = BEGINNING
      return Promise.resolve()
    },
  }
}
