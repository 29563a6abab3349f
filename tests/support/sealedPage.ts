import { createConnection, type Connection } from '../../src/adapters/storage/connection.ts'
import { createIndexedDbLogStore } from '../../src/adapters/storage/indexeddb.ts'
import { createSealedRows } from '../../src/adapters/storage/sealedRows.ts'
import { createIndexedDbVaultStore } from '../../src/adapters/storage/vaultStore.ts'
import { createSystemClock } from '../../src/adapters/time/systemClock.ts'
import type { LogStore } from '../../src/ports/logStore.ts'
import type { Vault } from '../../src/ports/vault.ts'
import { sha256 } from './sampleLog.ts'
import { quickVault } from './vaults.ts'

export const PIN = '482913'
const clock = createSystemClock('boot')
const open: Connection[] = []
let count = 0

export interface Device {
  readonly name: string
  readonly connection: Connection
  readonly vault: Vault
  readonly store: LogStore
}

/** One page on a database: with a PIN that is open, unless told otherwise. */
export async function sealedPage(
  name = `sealed-${(count += 1)}`,
  pin?: 'none' | 'locked',
): Promise<Device> {
  const connection = createConnection({ clock, name })
  open.push(connection)
  const vault = quickVault(createIndexedDbVaultStore(connection))
  const state = await vault.load()
  if (pin === undefined) await (state === 'none' ? vault.setUp(PIN) : vault.open(PIN))
  const store = createIndexedDbLogStore(connection, sha256, createSealedRows(vault))
  return { name, connection, vault, store }
}

export const closePages = (): void => open.splice(0).forEach((connection) => connection.close())
