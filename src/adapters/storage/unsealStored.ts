import { StorageError } from '../../ports/storageFault.ts'
import type { Connection } from './connection.ts'
import { inTransaction } from './inTransaction.ts'
import { recodeStored, type Recoding } from './recodeStored.ts'
import type { EntryRow, RowCodec } from './rows.ts'
import { entriesOf, type Database } from './schema.ts'
import { isSealedEntry } from './sealedRows.ts'

/**
 * Puts everything that is sealed back in plain, and takes the vault away in the very transaction that finds nothing
 * sealed any more. Until then the PIN holds and whatever is recorded meanwhile is sealed: it is turned with the next
 * round.
 * @param codec of an open vault
 * @param onProgress draws done, and how many there are
 * @throws StorageError; nothing is lost, and the next call goes on
 */
export async function unsealStored(
  connection: Connection,
  codec: RowCodec,
  onProgress: (done: number, of: number) => void = () => undefined,
): Promise<void> {
  const unsealing: Recoding = {
    entry: async (drawId, row) =>
      isSealedEntry(row) ? ((await codec.readEntry(drawId, row)) as EntryRow) : row,
    name: async (drawId, row) => ({ patientName: await codec.readName(drawId, row) }),
    text: (drawId, row) => codec.readText(drawId, row),
  }
  for (let rounds = 0; rounds < 6; rounds++) {
    await recodeStored(connection, unsealing, onProgress)
    if (await connection.run(removeVault)) return
  }
  throw new StorageError('movedOn', 'Records are written while they are put back in plain.')
}

/** False while a draw was recorded into since it was turned: what is sealed then stands at its end. */
function removeVault(db: Database): Promise<boolean> {
  return inTransaction(
    db,
    ['entries', 'draws', 'originals', 'days', 'handOver', 'vault'],
    async (tx) => {
      if ((await tx.objectStore('days').getAll()).some(isSealedEntry)) return false
      for (const row of await tx.objectStore('draws').getAll()) {
        const last = await tx.objectStore('entries').openCursor(entriesOf(row.drawId), 'prev')
        if (row.sealedName || (last && isSealedEntry(last.value))) return false
      }
      const texts = await tx.objectStore('originals').getAll()
      if (texts.some((text) => typeof text !== 'string')) return false
      const told = (await tx.objectStore('handOver').getAll()).map((record) => record.told ?? '')
      if (told.some((text) => typeof text !== 'string')) return false
      await tx.objectStore('vault').clear()
      return true
    },
  )
}
