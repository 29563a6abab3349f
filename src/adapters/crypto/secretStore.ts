import type { SecretName, SecretStore } from '../../ports/secretStore.ts'
import { storageFaultOf, StorageError } from '../../ports/storageFault.ts'
import type { Vault } from '../../ports/vault.ts'
import { sealText, unsealText } from './dataKey.ts'
import type { SecretRow, SecretRows } from './secretRows.ts'

const NAMES: readonly SecretName[] = ['keys', 'pass', 'desk']
const contextOf = (name: SecretName): string => `secret/${name}`
/** So many pages do not write at one time. */
const TRIES = 10

type SealingVault = Pick<Vault, 'load' | 'state' | 'seal' | 'unseal' | 'isUnsealing'>

/**
 * Secrets over any rows. While a PIN is being taken away they are sealed as if it were gone already: the vault's key
 * goes in the moment in which nothing needs it. Another page may set a PIN or take it away, so that each change asks
 * how things stand, and looks once more behind what it wrote.
 */
export function createSecretStore(rows: SecretRows, vault: SealingVault): SecretStore {
  const sealsByVault = (): boolean => vault.state() !== 'none' && !vault.isUnsealing()
  const refuseWhenLocked = (): void => {
    if (vault.state() === 'locked') throw new StorageError('locked', 'The vault is locked.')
  }

  async function open(name: SecretName, row: SecretRow | undefined): Promise<string | undefined> {
    if (!row) return undefined
    return row.by === 'vault'
      ? vault.unseal(contextOf(name), row)
      : unsealText(await rows.key(), contextOf(name), row)
  }
  async function sealed(name: SecretName, text: string, revision: number): Promise<SecretRow> {
    const byVault = sealsByVault()
    const bytes = byVault
      ? await vault.seal(contextOf(name), text)
      : await sealText(await rows.key(), contextOf(name), text)
    return { ...bytes, by: byVault ? 'vault' : 'device', revision }
  }
  /** Puts what `change` gives behind the row that it was made of, and begins again where that is another by then. */
  async function swap(
    name: SecretName,
    change: (text: string | undefined, row: SecretRow | undefined) => unknown,
  ): Promise<string | undefined> {
    for (let tries = 0; tries < TRIES; tries++) {
      await vault.load()
      refuseWhenLocked()
      const row = await rows.read(name)
      const text = await open(name, row)
      const next = await change(text, row)
      if (typeof next !== 'string') return text
      const behind = row?.revision ?? 0
      const mine = await sealed(name, next, behind + 1)
      if (await rows.swap(name, behind, mine)) {
        if (mine.by === 'vault') await keepWithoutVault(name, next, behind + 1)
        return next
      }
    }
    throw new StorageError('movedOn', `The secret ${name} changes all the time.`)
  }

  /** The PIN may have begun to go while this was sealed by it; whoever has changed it since has seen to that. */
  async function keepWithoutVault(name: SecretName, text: string, behind: number): Promise<void> {
    await vault.load()
    if (sealsByVault()) return
    await rows.swap(name, behind, await sealed(name, text, behind + 1))
  }

  return {
    read: async (name) => {
      const row = await rows.read(name)
      if (row?.by === 'vault') await vault.load()
      refuseWhenLocked()
      return open(name, row)
    },
    update: (name, change) => swap(name, change),
    clear: () => rows.clear(),
    reseal: async () => {
      for (const name of NAMES) {
        await swap(name, (text, row) => {
          const isRight = row?.by === (sealsByVault() ? 'vault' : 'device')
          return isRight ? undefined : text
        }).catch((error: unknown) => {
          // What does not open any more is left as it is: it must not keep a PIN from being set.
          if (storageFaultOf(error) !== 'damaged') throw error
        })
      }
    },
    isLocked: () => vault.state() === 'locked',
  }
}
