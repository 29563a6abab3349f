import { StorageError } from '../../ports/storageFault.ts'
import type { Sealed, Sealer } from '../../ports/vault.ts'
import { PLAIN_ROWS, type EntryRow, type NameRow, type RowCodec, type TextRow } from './rows.ts'

/** An entry of which only the chain can be read. */
export interface SealedEntryRow extends EntryRow {
  readonly sealed: Sealed
}

export const isSealedEntry = (row: EntryRow): row is SealedEntryRow => 'sealed' in row

/**
 * Rows in which nothing names a patient without the data key. What was stored in plain before a PIN was set is still
 * read; what is written is sealed as soon as there is one.
 */
export function createSealedRows(sealer: Sealer): RowCodec {
  const isPlain = (): boolean => sealer.state() === 'none'
  return {
    writeEntry: async (drawId, entry) => {
      if (isPlain()) return PLAIN_ROWS.writeEntry(drawId, entry)
      const sealed = await sealer.seal(entryAt(drawId, entry.seq), JSON.stringify(entry))
      return { seq: entry.seq, hash: entry.hash, sealed } satisfies SealedEntryRow
    },
    readEntry: async (drawId, row) => {
      if (!isSealedEntry(row)) return refuseWhenLocked(sealer, row)
      return JSON.parse(await sealer.unseal(entryAt(drawId, row.seq), row.sealed)) as unknown
    },
    writeText: async (drawId, text): Promise<TextRow> =>
      isPlain() ? text : sealer.seal(`original/${drawId}`, text),
    readText: async (drawId, row) =>
      typeof row === 'string'
        ? refuseWhenLocked(sealer, row)
        : sealer.unseal(`original/${drawId}`, row),
    writeName: async (drawId, patientName): Promise<NameRow> =>
      isPlain()
        ? { patientName }
        : { sealedName: await sealer.seal(`name/${drawId}`, patientName) },
    readName: async (drawId, { patientName, sealedName }) =>
      sealedName
        ? sealer.unseal(`name/${drawId}`, sealedName)
        : refuseWhenLocked(sealer, patientName ?? ''),
  }
}

const entryAt = (drawId: string, seq: number): string => `entry/${drawId}/${seq}`

/** A row that is still plain, because sealing was interrupted, is no way around the PIN. */
function refuseWhenLocked<T>(sealer: Sealer, row: T): T {
  if (sealer.state() === 'locked') throw new StorageError('locked', 'The vault is locked.')
  return row
}
