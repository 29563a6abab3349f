import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { createMemoryVaultStore } from '../../src/adapters/storage/vaultStore.ts'
import type { VaultRecord, VaultStore, WrappedKey } from '../../src/ports/vault.ts'
import { quickVault } from '../support/vaults.ts'

const pin = fc.stringMatching(/^\d{6,12}$/)
const RUNS = { numRuns: 60 }

async function setUp(right: string) {
  const store = createMemoryVaultStore()
  const vault = quickVault(store)
  const recoveryKey = await vault.setUp(right)
  const record = await store.read()
  if (!record) throw new Error('Nothing was stored.')
  return { store, vault, recoveryKey, record }
}
async function holding(record: VaultRecord): Promise<VaultStore> {
  const store = createMemoryVaultStore()
  await store.update(() => record)
  return store
}
/** Turns one bit of a hex text. */
function flipped(hex: string, at: number): string {
  const index = at % hex.length
  const digit = Number.parseInt(hex.charAt(index), 16) ^ (1 << (at % 4))
  return hex.slice(0, index) + digit.toString(16) + hex.slice(index + 1)
}

describe('a vault', () => {
  it('opens for its PIN, in another page and after a change of PIN, and gives what was sealed', async () => {
    await fc.assert(
      fc.asyncProperty(pin, pin, fc.string({ unit: 'grapheme' }), async (first, second, text) => {
        const { store, vault, recoveryKey } = await setUp(first)
        const sealed = await vault.seal('here', text)
        expect(await vault.changePin(first, second)).toEqual({ kind: 'open' })
        const page = quickVault(store)
        expect(await page.load()).toBe('locked')
        expect(await page.open(second)).toEqual({ kind: 'open' })
        expect(await page.unseal('here', sealed)).toBe(text)
        const other = quickVault(store)
        expect(await other.openByRecovery(recoveryKey, first)).toBe(true)
        expect(await other.unseal('here', sealed)).toBe(text)
      }),
      RUNS,
    )
  })

  it('never opens for a wrong PIN', async () => {
    await fc.assert(
      fc.asyncProperty(pin, fc.string(), async (right, typed) => {
        fc.pre(right !== typed)
        const { store } = await setUp(right)
        const page = quickVault(store)
        await page.load()
        expect((await page.open(typed)).kind).toBe('wrong')
        expect(page.state()).toBe('locked')
        await expect(page.seal('here', 'text')).rejects.toMatchObject({ fault: 'locked' })
      }),
      RUNS,
    )
  })

  it('never opens for a wrong recovery key, also one letter off', async () => {
    const { store, recoveryKey } = await setUp('482913')
    await fc.assert(
      fc.asyncProperty(
        fc.nat(38),
        fc.constantFrom(...'0123456789ABCDEFGHJKMNPQRSTVWXYZ'),
        async (at, letter) => {
          fc.pre(recoveryKey.charAt(at) !== '-' && recoveryKey.charAt(at) !== letter)
          const typed = recoveryKey.slice(0, at) + letter + recoveryKey.slice(at + 1)
          const page = quickVault(store)
          expect(await page.openByRecovery(typed, '000001')).toBe(false)
          expect((await page.open('000001')).kind).not.toBe('open')
        },
      ),
      RUNS,
    )
  })

  it('never opens from a record with one bit turned, in any part', async () => {
    const { record, recoveryKey } = await setUp('482913')
    const turn = (key: WrappedKey, part: 'iv' | 'key', at: number): WrappedKey => ({
      ...key,
      [part]: flipped(key[part], at),
    })
    await fc.assert(
      fc.asyncProperty(fc.nat(), fc.constantFrom('iv', 'key', 'salt'), async (at, part) => {
        const bad: VaultRecord =
          part === 'salt'
            ? {
                ...record,
                slow: { ...record.slow, salt: flipped(record.slow.salt, at) },
                byRecovery: { ...record.byRecovery, salt: flipped(record.byRecovery.salt, at) },
              }
            : {
                ...record,
                byPin: turn(record.byPin, part, at),
                byRecovery: { ...record.byRecovery, ...turn(record.byRecovery, part, at) },
              }
        const page = quickVault(await holding(bad))
        await page.load()
        expect((await page.open('482913')).kind).toBe('wrong')
        expect(await page.openByRecovery(recoveryKey, '000001')).toBe(false)
        expect(page.state()).toBe('locked')
      }),
      RUNS,
    )
  })

  it('never gives sealed bytes with one bit turned, cut off, or at another place', async () => {
    const { vault } = await setUp('482913')
    await fc.assert(
      fc.asyncProperty(
        fc.string({ minLength: 1 }),
        fc.nat(),
        fc.boolean(),
        async (text, at, inIv) => {
          const sealed = await vault.seal('entry/a/1', text)
          const part = inIv ? 'iv' : 'data'
          const bytes = Uint8Array.from(sealed[part])
          const index = at % bytes.length
          bytes[index] = (bytes[index] ?? 0) ^ (1 << (at % 8))
          const damaged = { fault: 'damaged' }
          await expect(
            vault.unseal('entry/a/1', { ...sealed, [part]: bytes }),
          ).rejects.toMatchObject(damaged)
          await expect(vault.unseal('entry/a/2', sealed)).rejects.toMatchObject(damaged)
          const cut = { ...sealed, data: sealed.data.slice(0, -1) }
          await expect(vault.unseal('entry/a/1', cut)).rejects.toMatchObject(damaged)
          expect(await vault.unseal('entry/a/1', sealed)).toBe(text)
        },
      ),
      RUNS,
    )
  })

  it('seals one text twice to different bytes, and a record holds no PIN and no key in plain', async () => {
    const { vault, record, recoveryKey } = await setUp('482913')
    const [one, two] = [await vault.seal('a', 'text'), await vault.seal('a', 'text')]
    expect(one.iv).not.toEqual(two.iv)
    expect(one.data).not.toEqual(two.data)
    const stored = JSON.stringify(record)
    expect(stored).not.toContain('482913')
    expect(stored.toUpperCase()).not.toContain(recoveryKey.replaceAll('-', ''))
  })
})
