import { LOG_VERSION } from '../../core/log/checkLog.ts'
import { readStored, type CheckedLog } from '../../core/log/readStored.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import { StorageError } from '../../ports/storageFault.ts'
import type { Connection } from './connection.ts'
import { inTransaction } from './inTransaction.ts'
import type { EntryRow, RowCodec } from './rows.ts'
import { entriesOf, type Database } from './schema.ts'

/**
 * A stored draw in today's format, its chain checked. One of an older format with a whole chain is also rewritten, so
 * that what is added later hangs on it; the entries as they were stay in `superseded`.
 * @throws StorageError `newer` or `damaged`, where nothing of it can be shown
 */
export async function loadRows(
  connection: Connection,
  codec: RowCodec,
  drawId: string,
  sha256: Sha256,
): Promise<CheckedLog | undefined> {
  const { rows, row } = await connection.run(async (db) => {
    const tx = db.transaction(['entries', 'draws'])
    const [found, head] = await Promise.all([
      tx.objectStore('entries').getAll(entriesOf(drawId)),
      tx.objectStore('draws').get(drawId),
    ])
    return { rows: found, row: head }
  })
  if (rows.length === 0) return undefined
  const entries: unknown[] = []
  for (const each of rows) entries.push(await codec.readEntry(drawId, each))
  const version = row?.logVersion ?? LOG_VERSION
  const reading = readStored({ version, drawId, entries }, sha256)
  if ('unreadable' in reading) {
    const { kind, id, seq } = reading.unreadable
    throw new StorageError(kind === 'futureVersion' ? 'newer' : 'damaged', `Entry ${seq}: ${id}`)
  }
  if (reading.from !== undefined) {
    const newer: EntryRow[] = []
    for (const entry of reading.log.entries) newer.push(await codec.writeEntry(drawId, entry))
    await connection.run((db) => rewrite(db, drawId, version, rows, newer))
  }
  return reading.log
}

/** Puts the upgraded entries in the place of the old ones, unless somebody else did so or added to them meanwhile. */
async function rewrite(
  db: Database,
  drawId: string,
  version: number,
  older: readonly EntryRow[],
  newer: readonly EntryRow[],
): Promise<void> {
  await inTransaction(db, ['entries', 'draws', 'superseded'], async (tx) => {
    const entries = tx.objectStore('entries')
    const row = await tx.objectStore('draws').get(drawId)
    const last = await entries.openCursor(entriesOf(drawId), 'prev')
    if (!row || row.logVersion !== version || last?.value.hash !== older.at(-1)?.hash) return
    await tx.objectStore('superseded').put(older, [drawId, version])
    await entries.delete(entriesOf(drawId))
    for (const entry of newer) await entries.add(entry, [drawId, entry.seq])
    await tx.objectStore('draws').put({ ...row, logVersion: LOG_VERSION }, drawId)
  })
}
