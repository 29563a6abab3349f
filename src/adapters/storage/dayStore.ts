import { appendRest } from '../../core/log/appendRest.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { DayEntry } from '../../core/day/dayEvents.ts'
import { readDayLog } from '../../core/day/dayLog.ts'
import type { DayEnd, DayStore } from '../../ports/dayStore.ts'
import { StorageError } from '../../ports/storageFault.ts'
import { WRITE_PATIENCE_ms, type Connection } from './connection.ts'
import { inTransaction } from './inTransaction.ts'
import { PLAIN_ROWS, type EntryRow, type RowCodec } from './rows.ts'
import { daysFrom, entriesOf } from './schema.ts'
import { mustFitVault } from './vaultFits.ts'

/** What the rows of a day are sealed for: no draw bears such a number. */
export const dayContext = (day: string): string => `day/${day}`

/** Keeps the logs of days in IndexedDB. */
export function createIndexedDbDayStore(
  connection: Connection,
  sha256: Sha256,
  codec: RowCodec = PLAIN_ROWS,
): DayStore {
  return {
    append: async (day, entries) => {
      const rows: EntryRow[] = []
      for (const entry of entries) rows.push(await codec.writeEntry(dayContext(day), entry))
      if (rows.length === 0) return
      await connection.run(
        (db) =>
          inTransaction(db, ['days', 'vault'], async (tx) => {
            const days = tx.objectStore('days')
            const from = Math.max(0, (entries[0]?.seq ?? 1) - 1)
            const stored = await days.getAll(entriesOf(day, from))
            const last = await days.openCursor(entriesOf(day), 'prev')
            const rest = appendRest(stored.length > 0 ? stored : last ? [last.value] : [], entries)
            if ('refused' in rest) throw new StorageError(rest.refused, rest.reason)
            await mustFitVault(tx.objectStore('vault'), rows)
            const wanted = new Set(rest.add.map(({ seq }) => seq))
            for (const row of rows) if (wanted.has(row.seq)) await days.add(row, [day, row.seq])
          }),
        WRITE_PATIENCE_ms,
      )
    },
    load: async (day) => {
      const rows = await connection.run((db) => db.getAll('days', entriesOf(day)))
      const entries: unknown[] = []
      for (const row of rows) entries.push(await codec.readEntry(dayContext(day), row))
      return readDayLog(day, entries, sha256)
    },
    ends: async (from) => {
      const keys = await connection.run((db) => db.getAllKeys('days', daysFrom(from)))
      return endsOf(keys.map(([day]) => day))
    },
    eraseBefore: (day) =>
      connection.run(
        (db) => db.delete('days', IDBKeyRange.upperBound([day, 0], true)),
        WRITE_PATIENCE_ms,
      ),
  }
}

/** Keeps the logs of days until the page is closed: for tests, and for a browser that allows no storage. */
export function createMemoryDayStore(sha256: Sha256): DayStore {
  const days = new Map<string, readonly DayEntry[]>()
  return {
    append: (day, entries) => {
      const known = days.get(day) ?? []
      const rest = appendRest(known, entries)
      if ('refused' in rest) return Promise.reject(new StorageError(rest.refused, rest.reason))
      if (rest.add.length > 0) days.set(day, [...known, ...structuredClone(rest.add)])
      return Promise.resolve()
    },
    load: (day) => Promise.resolve(readDayLog(day, structuredClone(days.get(day) ?? []), sha256)),
    ends: (from) => {
      const kept = [...days].filter(([day]) => day >= from)
      const ends = kept.map(([day, { length }]) => ({ day, entries: length }))
      return Promise.resolve(ends.sort((a, b) => (a.day < b.day ? -1 : 1)))
    },
    eraseBefore: (before) => {
      for (const day of [...days.keys()]) if (day < before) days.delete(day)
      return Promise.resolve()
    },
  }
}

/** Days counted: they come in order, each as often as it has entries. */
function endsOf(days: readonly string[]): readonly DayEnd[] {
  const counts = new Map<string, number>()
  for (const day of days) counts.set(day, (counts.get(day) ?? 0) + 1)
  return [...counts].map(([day, entries]) => ({ day, entries }))
}
