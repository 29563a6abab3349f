import type { HandOverRow } from '../../core/handOver/handOverRow.ts'
import { StorageError } from '../../ports/storageFault.ts'
import type { Sealed } from '../../ports/vault.ts'

/** What is stored of one entry. These two stay in plain, so that a store can see what follows what. */
export interface EntryRow {
  readonly seq: number
  readonly hash: string
}

/** The text of a draw that was brought in. */
export type TextRow = string | Sealed

/** A row of handing over as it is stored: what a server said may name a patient, all else names nobody. */
export interface HandOverRecord {
  readonly revision: number
  readonly row: Omit<HandOverRow, 'refusal'>
  readonly told?: TextRow
}

/** The patient's name in the list of draws, in one of two forms. */
export interface NameRow {
  readonly patientName?: string
  readonly sealedName?: Sealed
}

/**
 * How entries and names become rows. Made before a transaction begins and read after it has ended, because IndexedDB
 * commits by itself while anything else is waited for.
 */
export interface RowCodec {
  /** @param of the draw or the day that it is of: what is sealed for one does not open for another */
  writeEntry(of: string, entry: EntryRow): Promise<EntryRow>
  /** @throws StorageError `locked` or `damaged` */
  readEntry(of: string, row: EntryRow): Promise<unknown>
  writeText(drawId: string, text: string): Promise<TextRow>
  readText(drawId: string, row: TextRow): Promise<string>
  writeName(drawId: string, name: string): Promise<NameRow>
  readName(drawId: string, row: NameRow): Promise<string>
}

const sealedRow = (): StorageError => new StorageError('locked', 'This row is sealed.')

/** Rows as they are. */
export const PLAIN_ROWS: RowCodec = {
  writeEntry: (_drawId, entry) => Promise.resolve(entry),
  readEntry: (_drawId, row) =>
    'sealed' in row ? Promise.reject(sealedRow()) : Promise.resolve(row),
  writeText: (_drawId, text) => Promise.resolve(text),
  readText: (_drawId, row) =>
    typeof row === 'string' ? Promise.resolve(row) : Promise.reject(sealedRow()),
  writeName: (_drawId, patientName) => Promise.resolve({ patientName }),
  readName: (_drawId, { patientName }) =>
    patientName === undefined ? Promise.reject(sealedRow()) : Promise.resolve(patientName),
}
