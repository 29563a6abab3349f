import type { VaultRecord, VaultStore } from '../../ports/vault.ts'
import { WRITE_PATIENCE_ms, type Connection } from './connection.ts'
import { inTransaction } from './inTransaction.ts'

/** The one key in its store. */
const VAULT_KEY = 'vault'

/** Keeps the vault's record in IndexedDB; two pages change it one after the other. */
export function createIndexedDbVaultStore(connection: Connection): VaultStore {
  return {
    read: () => connection.run((db) => db.get('vault', VAULT_KEY)),
    update: (change) =>
      connection.run(
        (db) =>
          inTransaction(db, ['vault'], async (tx) => {
            const stored = await tx.objectStore('vault').get(VAULT_KEY)
            const next = change(stored)
            if (next) await tx.objectStore('vault').put(next, VAULT_KEY)
            return next ?? stored
          }),
        WRITE_PATIENCE_ms,
      ),
  }
}

export function createMemoryVaultStore(): VaultStore {
  let record: VaultRecord | undefined
  return {
    read: () => Promise.resolve(record),
    update: (change) => {
      record = change(record) ?? record
      return Promise.resolve(record)
    },
  }
}
