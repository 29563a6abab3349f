import type { Connection } from './connection.ts'
import { recodeStored, type Recoding } from './recodeStored.ts'
import type { RowCodec } from './rows.ts'
import { isSealedEntry } from './sealedRows.ts'

/**
 * Seals what was stored in plain before a PIN was set; goes on where it was interrupted.
 * @param onProgress draws done, and how many there are
 * @throws StorageError; nothing is lost
 */
export function sealStored(
  connection: Connection,
  codec: RowCodec,
  onProgress: (done: number, of: number) => void = () => undefined,
): Promise<void> {
  const sealing: Recoding = {
    entry: async (of, row) => (isSealedEntry(row) ? row : codec.writeEntry(of, row)),
    name: async (drawId, { patientName, sealedName }) =>
      sealedName ? { sealedName } : codec.writeName(drawId, patientName ?? ''),
    text: async (drawId, row) => (typeof row === 'string' ? codec.writeText(drawId, row) : row),
  }
  return recodeStored(connection, sealing, onProgress)
}
