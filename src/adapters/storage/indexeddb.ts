import { defined } from '../../core/basics/defined.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { LogStore } from '../../ports/logStore.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'
import { appendJob, appendRows } from './appendRows.ts'
import { WRITE_PATIENCE_ms, type Connection } from './connection.ts'
import { claimRow, reserveNumber } from './drawNumbers.ts'
import { eraseDraw } from './eraseDraw.ts'
import { inTransaction } from './inTransaction.ts'
import { loadRows } from './loadRows.ts'
import { PLAIN_ROWS, type RowCodec } from './rows.ts'
import { byOpening } from './storedDraw.ts'

/** Keeps logs in IndexedDB. It has no way to change an entry that somebody recorded. */
export function createIndexedDbLogStore(
  connection: Connection,
  sha256: Sha256,
  codec: RowCodec = PLAIN_ROWS,
): LogStore {
  const append = async (...[drawId, entries]: Parameters<LogStore['append']>): Promise<void> => {
    if (entries.length === 0) return
    const job = await appendJob(codec, drawId, entries)
    await connection.run((db) => appendRows(db, job), WRITE_PATIENCE_ms)
  }
  return {
    append,
    adopt: async ({ drawId, entries }, original) => {
      const job = await appendJob(codec, drawId, entries, original)
      await connection.run((db) => appendRows(db, job), WRITE_PATIENCE_ms)
    },
    original: async (drawId) => {
      const row = await connection.run((db) => db.get('originals', drawId))
      return row === undefined ? undefined : codec.readText(drawId, row)
    },
    load: (drawId) => loadRows(connection, codec, drawId, sha256),
    list: async () => {
      const rows = await connection.run((db) => db.getAll('draws'))
      const draws = rows.map(async (row) => {
        const { drawId, opened_ms, closed, invented, series, listed, entries } = row
        const patientName = await codec.readName(drawId, row)
        const of = { series, listed, entries }
        return defined({ drawId, opened_ms, closed, patientName, invented, ...of })
      })
      return (await Promise.all(draws)).sort(byOpening)
    },
    erase: (drawId) => connection.run((db) => eraseDraw(db, drawId), WRITE_PATIENCE_ms),
    reserveNumber: (prefix, day) =>
      connection.run((db) => reserveNumber(db, prefix, day), WRITE_PATIENCE_ms),
    claim: (key, now_ms) => connection.run((db) => claimRow(db, key, now_ms), WRITE_PATIENCE_ms),
  }
}

export function createIndexedDbSettingsStore(connection: Connection): SettingsStore {
  return {
    read: (key) => connection.run((db) => db.get('settings', key)),
    write: (key, json) =>
      connection.run(async (db) => {
        await db.put('settings', json, key)
      }, WRITE_PATIENCE_ms),
    update: (key, change) =>
      connection.run(
        (db) =>
          inTransaction(db, ['settings'], async (tx) => {
            const values = tx.objectStore('settings')
            await values.put(change(await values.get(key)), key)
          }),
        WRITE_PATIENCE_ms,
      ),
  }
}
