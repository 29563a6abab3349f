import { defined } from '../../core/basics/defined.ts'
import { StorageError } from '../../ports/storageFault.ts'
import type { Connection } from './connection.ts'
import { dayContext } from './dayStore.ts'
import { handOverContext } from './handOverStore.ts'
import { inTransaction } from './inTransaction.ts'
import type { EntryRow, NameRow, TextRow } from './rows.ts'
import { entriesOf, type Database, type DrawRow } from './schema.ts'

/** Turns rows as they are stored into rows as they are to be; what is so already stays. */
export interface Recoding {
  /** @param of the draw or the day that it is of, see `dayContext` */
  entry(of: string, row: EntryRow): Promise<EntryRow>
  name(drawId: string, row: NameRow): Promise<NameRow>
  text(drawId: string, row: TextRow): Promise<TextRow>
}

/** The stored rows of one draw. */
interface DrawRows {
  readonly entries: readonly EntryRow[]
  readonly superseded: readonly (readonly [version: number, rows: readonly EntryRow[]])[]
}

/**
 * Turns every stored draw over, one after another, each in one transaction: whenever this is interrupted, every draw
 * is either as it was or turned whole, and the next call goes on.
 * @param onProgress draws done, and how many there are
 * @throws StorageError; nothing is lost
 */
export async function recodeStored(
  connection: Connection,
  recoding: Recoding,
  onProgress: (done: number, of: number) => void,
): Promise<void> {
  await recodeDays(connection, recoding)
  await recodeHandOver(connection, recoding)
  const drawIds = await connection.run((db) => db.getAllKeys('draws'))
  for (const [index, drawId] of drawIds.entries()) {
    onProgress(index, drawIds.length)
    // A page that records into this draw meanwhile changes its end; then it is read again.
    for (let tries = 0; !(await recodeDraw(connection, recoding, drawId)); tries++) {
      if (tries > 5) throw new StorageError('movedOn', `Draw ${drawId} changes meanwhile.`)
    }
  }
  onProgress(drawIds.length, drawIds.length)
}

/** Days first, each in one transaction: there are few, and each names every patient of it. */
async function recodeDays(connection: Connection, recoding: Recoding): Promise<void> {
  const keys = await connection.run((db) => db.getAllKeys('days'))
  for (const day of new Set(keys.map(([name]) => name))) {
    for (let tries = 0; !(await recodeDay(connection, recoding, day)); tries++) {
      if (tries > 5) throw new StorageError('movedOn', `The list of ${day} changes meanwhile.`)
    }
  }
}

/** What servers said of records, one at a time; a row that changes meanwhile is written as it should be by then. */
async function recodeHandOver(connection: Connection, recoding: Recoding): Promise<void> {
  for (const { revision, row, told } of await connection.run((db) => db.getAll('handOver'))) {
    if (told === undefined) continue
    const turned = await recoding.text(handOverContext(row.key), told)
    await connection.run((db) =>
      inTransaction(db, ['handOver'], async (tx) => {
        const rows = tx.objectStore('handOver')
        const isSame = (await rows.get(row.key))?.revision === revision
        if (isSame) await rows.put({ revision, row, told: turned }, row.key)
      }),
    )
  }
}

/** False where a page wrote into that day meanwhile. */
async function recodeDay(
  connection: Connection,
  recoding: Recoding,
  day: string,
): Promise<boolean> {
  const rows = await connection.run((db) => db.getAll('days', entriesOf(day)))
  const turned: EntryRow[] = []
  for (const row of rows) turned.push(await recoding.entry(dayContext(day), row))
  return connection.run((db) =>
    inTransaction(db, ['days'], async (tx) => {
      const last = await tx.objectStore('days').openCursor(entriesOf(day), 'prev')
      if (last?.value.hash !== rows.at(-1)?.hash) return false
      for (const row of turned) await tx.objectStore('days').put(row, [day, row.seq])
      return true
    }),
  )
}

async function recodeDraw(
  connection: Connection,
  recoding: Recoding,
  drawId: string,
): Promise<boolean> {
  const { rows, row, original } = await connection.run(async (db) => ({
    rows: await rowsOf(db, drawId),
    row: await db.get('draws', drawId),
    original: await db.get('originals', drawId),
  }))
  if (!row) return true
  const turn = async (older: readonly EntryRow[]): Promise<EntryRow[]> => {
    const turned: EntryRow[] = []
    for (const each of older) turned.push(await recoding.entry(drawId, each))
    return turned
  }
  const entries = await turn(rows.entries)
  const superseded: [number, EntryRow[]][] = []
  for (const [version, older] of rows.superseded) superseded.push([version, await turn(older)])
  const { patientName: _plain, sealedName: _sealed, ...nameless } = row
  const name = await recoding.name(drawId, row)
  const text = original === undefined ? undefined : await recoding.text(drawId, original)
  return connection.run((db) =>
    inTransaction(db, ['entries', 'draws', 'originals', 'superseded'], async (tx) => {
      const last = await tx.objectStore('entries').openCursor(entriesOf(drawId), 'prev')
      const now = await tx.objectStore('draws').get(drawId)
      if (!now || last?.value.hash !== rows.entries.at(-1)?.hash) return false
      for (const entry of entries) await tx.objectStore('entries').put(entry, [drawId, entry.seq])
      for (const [version, older] of superseded) {
        await tx.objectStore('superseded').put(older, [drawId, version])
      }
      await tx.objectStore('draws').put({ ...nameless, ...endOf(now), ...name }, drawId)
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

/** What a page that records meanwhile changes in the row of its draw. */
const endOf = ({ closed, entries }: DrawRow): Pick<DrawRow, 'closed' | 'entries'> =>
  defined({ closed, entries })
