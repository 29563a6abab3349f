import { StorageError } from '../../ports/storageFault.ts'
import type { LogEntry } from '../../core/protocol/entry.ts'
import type { Connection } from './connection.ts'
import { inTransaction } from './inTransaction.ts'
import type { EntryRow, RowCodec } from './rows.ts'
import { entriesOf, type Database } from './schema.ts'
import { isSealedEntry } from './sealedRows.ts'

/** The stored rows of one draw. */
interface DrawRows {
  readonly entries: readonly EntryRow[]
  readonly superseded: readonly (readonly [version: number, rows: readonly EntryRow[]])[]
}

/**
 * Seals what was stored in plain before a PIN was set, one draw after another, each in one transaction: whenever this
 * is interrupted, every draw is either as it was or sealed whole, and the next call goes on.
 * @param onProgress draws done, and how many there are
 * @throws StorageError; nothing is lost
 */
export async function sealStored(
  connection: Connection,
  codec: RowCodec,
  onProgress: (done: number, of: number) => void = () => undefined,
): Promise<void> {
  const drawIds = await connection.run((db) => db.getAllKeys('draws'))
  for (const [index, drawId] of drawIds.entries()) {
    onProgress(index, drawIds.length)
    // A page that records into this draw meanwhile changes its end; then it is read again.
    for (let tries = 0; !(await sealDraw(connection, codec, drawId)); tries++) {
      if (tries > 5) throw new StorageError('movedOn', `Draw ${drawId} changes while it is sealed.`)
    }
  }
  onProgress(drawIds.length, drawIds.length)
}

async function sealDraw(connection: Connection, codec: RowCodec, drawId: string): Promise<boolean> {
  const { rows, row, original } = await connection.run(async (db) => ({
    rows: await rowsOf(db, drawId),
    row: await db.get('draws', drawId),
    original: await db.get('originals', drawId),
  }))
  if (!row) return true
  const seal = async (plain: readonly EntryRow[]): Promise<EntryRow[]> => {
    const sealed: EntryRow[] = []
    for (const each of plain) {
      sealed.push(isSealedEntry(each) ? each : await codec.writeEntry(drawId, each as LogEntry))
    }
    return sealed
  }
  const entries = await seal(rows.entries)
  const superseded: [number, EntryRow[]][] = []
  for (const [version, older] of rows.superseded) superseded.push([version, await seal(older)])
  const { patientName, ...nameless } = row
  const name = patientName === undefined ? {} : await codec.writeName(drawId, patientName)
  const text = typeof original === 'string' ? await codec.writeText(drawId, original) : undefined
  return connection.run((db) =>
    inTransaction(db, ['entries', 'draws', 'originals', 'superseded'], async (tx) => {
      const last = await tx.objectStore('entries').openCursor(entriesOf(drawId), 'prev')
      const now = await tx.objectStore('draws').get(drawId)
      if (!now || last?.value.hash !== rows.entries.at(-1)?.hash) return false
      for (const entry of entries) await tx.objectStore('entries').put(entry, [drawId, entry.seq])
      for (const [version, older] of superseded) {
        await tx.objectStore('superseded').put(older, [drawId, version])
      }
      await tx.objectStore('draws').put({ ...nameless, closed: now.closed, ...name }, drawId)
      if (text !== undefined) await tx.objectStore('originals').put(text, drawId)
      return true
    }),
  )
}

async function rowsOf(db: Database, drawId: string): Promise<DrawRows> {
  const tx = db.transaction(['entries', 'superseded'])
  const older = IDBKeyRange.bound([drawId, 0], [drawId, Infinity])
  const [entries, keys, values] = await Promise.all([
    tx.objectStore('entries').getAll(entriesOf(drawId)),
    tx.objectStore('superseded').getAllKeys(older),
    tx.objectStore('superseded').getAll(older),
  ])
  return { entries, superseded: keys.map(([, version], index) => [version, values[index] ?? []]) }
}
