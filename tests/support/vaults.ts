import { sha256 } from '@noble/hashes/sha2.js'
import { utf8ToBytes } from '@noble/hashes/utils.js'
import type { SlowKey } from '../../src/adapters/crypto/slowKey.ts'
import { createVault } from '../../src/adapters/crypto/vault.ts'
import { createMemoryVaultStore } from '../../src/adapters/storage/vaultStore.ts'
import { createSimulatedClock } from '../../src/adapters/time/simulatedClock.ts'
import type { Vault, VaultStore } from '../../src/ports/vault.ts'

/** Quick in place of slow, for tests that are not about slowness: the vault cares only that it is a function. */
export const quickKey: SlowKey = async (pin, { salt }) =>
  Uint8Array.from(sha256(utf8ToBytes(`${salt}/${pin}`)))

export const vaultClock = (boot = 'a') =>
  createSimulatedClock({ boot, mono_ms: 0, wall_ms: 0, offset_min: 0 })

/** A vault on a store of its own or a given one: each call is one page. */
export function quickVault(
  store: VaultStore = createMemoryVaultStore(),
  clock = vaultClock(),
): Vault {
  return createVault({ clock, store, slowKey: quickKey })
}
