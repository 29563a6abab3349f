import { StorageError } from '../../ports/storageFault.ts'
import type { EntryRow } from './rows.ts'
import { isSealedEntry } from './sealedRows.ts'

/** The vault's rows within a transaction. */
interface VaultRows {
  count(): Promise<number>
}

/**
 * A page that does not know of a PIN yet, because another one has just set it, must not write beside the vault; nor one
 * that does not know that it was turned off write what nobody could open.
 * @throws StorageError `locked`
 */
export async function mustFitVault(vault: VaultRows, rows: readonly EntryRow[]): Promise<void> {
  const isVaulted = (await vault.count()) > 0
  if (isVaulted && rows.some((row) => !isSealedEntry(row))) {
    throw new StorageError('locked', 'A PIN has been set on this device meanwhile.')
  }
  if (!isVaulted && rows.some(isSealedEntry)) {
    throw new StorageError('locked', 'The PIN of this device has been turned off meanwhile.')
  }
}
