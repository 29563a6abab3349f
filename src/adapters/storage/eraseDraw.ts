import { drawKey } from '../../core/handOver/handOverRow.ts'
import { inTransaction } from './inTransaction.ts'
import { settleNumber } from './drawNumbers.ts'
import { entriesOf, type Database } from './schema.ts'

/** Takes a draw out with everything that belongs to it, in one transaction. Its number stays given. */
export async function eraseDraw(db: Database, drawId: string): Promise<void> {
  const stores = [
    'entries',
    'draws',
    'originals',
    'superseded',
    'running',
    'numbers',
    'handOver',
  ] as const
  await inTransaction(db, stores, async (tx) => {
    await settleNumber(tx.objectStore('numbers'), drawId)
    await tx.objectStore('entries').delete(entriesOf(drawId))
    await tx.objectStore('superseded').delete(IDBKeyRange.bound([drawId, 0], [drawId, Infinity]))
    await tx.objectStore('originals').delete(drawId)
    await tx.objectStore('running').delete(drawId)
    await tx.objectStore('draws').delete(drawId)
    await tx.objectStore('handOver').delete(drawKey(drawId))
  })
}
