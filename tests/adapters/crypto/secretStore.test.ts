import 'fake-indexeddb/auto'
import { openDB } from 'idb'
import { describe, expect, it } from 'vitest'
import { createBrowserDeviceKey } from '../../../src/adapters/crypto/deviceKey.ts'
import {
  createBrowserSecretRows,
  createMemorySecretRows,
  type SecretRows,
} from '../../../src/adapters/crypto/secretRows.ts'
import { createSecretStore } from '../../../src/adapters/crypto/secretStore.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import { storageFaultOf } from '../../../src/ports/storageFault.ts'
import type { VaultRecord, VaultStore } from '../../../src/ports/vault.ts'
import { quickVault } from '../../support/vaults.ts'

const PIN = '482913'
const clock = createSystemClock('boot')
const faultOf = (work: Promise<unknown>): Promise<string> =>
  work.then(() => 'no fault', storageFaultOf)
let databases = 0
const kinds: readonly (readonly [string, () => SecretRows])[] = [
  ['in memory', createMemorySecretRows],
  ['in a browser', () => createBrowserSecretRows(clock, `secrets-${databases++}`)],
]

describe.each(kinds)('secrets %s', (_, fresh) => {
  it('are kept, changed and cleared', async () => {
    const store = createSecretStore(fresh(), quickVault())
    expect(await store.read('pass')).toBeUndefined()
    await store.update('pass', () => 'one')
    expect(await store.update('pass', (was) => `${was} two`)).toBe('one two')
    expect(await store.update('pass', () => undefined)).toBe('one two')
    expect(await store.read('pass')).toBe('one two')
    expect(await store.read('desk')).toBeUndefined()
    await store.clear()
    expect(await store.read('pass')).toBeUndefined()
  })

  it('lie in no readable form, with and without a PIN', async () => {
    const rows = fresh()
    const vault = quickVault()
    const store = createSecretStore(rows, vault)
    await store.update('pass', () => 'SEED-OF-A-PASS')
    const plain = await rows.read('pass')
    await vault.setUp(PIN)
    await store.reseal()
    const sealed = await rows.read('pass')
    expect([plain?.by, sealed?.by]).toEqual(['device', 'vault'])
    for (const row of [plain, sealed]) {
      expect(Buffer.from(row?.data ?? []).toString('latin1')).not.toContain('SEED')
    }
  })

  it('are behind the PIN once it was set, and nobody writes past a lock', async () => {
    const vault = quickVault()
    const store = createSecretStore(fresh(), vault)
    await store.update('keys', () => 'text')
    await vault.setUp(PIN)
    vault.lock()
    expect(store.isLocked()).toBe(true)
    expect(await faultOf(store.read('keys'))).toBe('locked')
    expect(await faultOf(store.update('keys', () => 'other'))).toBe('locked')
    expect(await faultOf(store.reseal())).toBe('locked')
    await vault.open(PIN)
    expect(await store.read('keys')).toBe('text')
  })

  it('outlive the PIN: what is written while it is taken away too', async () => {
    const rows = fresh()
    const vault = quickVault()
    const store = createSecretStore(rows, vault)
    await vault.setUp(PIN)
    await store.update('keys', () => 'text')
    await vault.turnOff(PIN)
    await store.reseal()
    await store.update('pass', () => 'meanwhile')
    const gone = createSecretStore(rows, quickVault())
    expect([await gone.read('keys'), await gone.read('pass')]).toEqual(['text', 'meanwhile'])
  })

  it('are no secrets of another name', async () => {
    const rows = fresh()
    const store = createSecretStore(rows, quickVault())
    await store.update('pass', () => 'text')
    const row = await rows.read('pass')
    if (row) await rows.swap('desk', 0, row)
    expect(await faultOf(store.read('desk'))).toBe('damaged')
  })

  it('of two pages change one after the other', async () => {
    const rows = fresh()
    const pages = [1, 2, 3].map(() => createSecretStore(rows, quickVault()))
    await Promise.all(pages.map((page, n) => page.update('pass', (was) => `${was ?? ''}${n}`)))
    expect([...((await pages[0]?.read('pass')) ?? '')].sort().join('')).toBe('012')
  })

  it('that change without end are told, not waited for', async () => {
    const rows: SecretRows = { ...fresh(), swap: () => Promise.resolve(false) }
    const store = createSecretStore(rows, quickVault())
    expect(await faultOf(store.update('pass', () => 'text'))).toBe('movedOn')
  })
})

/** What several pages of one browser share; the vault can be taken away, as it is where nothing is sealed any more. */
function browserOf(rows: SecretRows = createMemorySecretRows()) {
  let record: VaultRecord | undefined
  const store: VaultStore = {
    read: async () => record,
    update: async (change) => (record = change(record) ?? record),
  }
  const page = async (change: (rows: SecretRows) => SecretRows = (given) => given) => {
    const vault = quickVault(store)
    await vault.load()
    return { vault, secrets: createSecretStore(change(rows), vault) }
  }
  return { page, rows, takeVaultAway: () => (record = undefined) }
}

describe('secrets of two pages', () => {
  /** Two open pages, one of which is taking the PIN away and has put back what it found. */
  async function unsealing() {
    const browser = browserOf()
    const a = await browser.page()
    await a.vault.setUp(PIN)
    await a.secrets.update('pass', () => 'roster 1')
    const b = await browser.page()
    await b.vault.open(PIN)
    return { ...browser, a, b }
  }

  it('outlive the PIN when the other page writes while it is taken away', async () => {
    const { a, b, page, takeVaultAway } = await unsealing()
    await a.vault.turnOff(PIN)
    await a.secrets.reseal()
    await b.secrets.update('pass', () => 'roster 2')
    await b.secrets.update('desk', () => 'file')
    takeVaultAway()
    const { secrets } = await page()
    expect([await secrets.read('pass'), await secrets.read('desk')]).toEqual(['roster 2', 'file'])
  })

  it('outlive it when it begins to go in the very moment in which the other page writes', async () => {
    const { a, page, takeVaultAway } = await unsealing()
    const b = await page((rows) => ({
      ...rows,
      // Sealed already, and not yet written: nothing of this name is there for the first page to see.
      swap: async (name, behind, row) => {
        if (behind === 0) {
          await a.vault.turnOff(PIN)
          await a.secrets.reseal()
        }
        return rows.swap(name, behind, row)
      },
    }))
    await b.vault.open(PIN)
    await b.secrets.update('desk', () => 'file')
    takeVaultAway()
    expect(await (await page()).secrets.read('desk')).toBe('file')
  })

  it('are not written under a PIN that was set anew meanwhile, nor past it', async () => {
    const { a, b, page, takeVaultAway } = await unsealing()
    await a.vault.turnOff(PIN)
    await a.secrets.reseal()
    takeVaultAway()
    const next = await page()
    await next.vault.setUp('735501')
    await next.secrets.reseal()
    expect(await faultOf(b.secrets.update('pass', () => 'roster 2'))).toBe('locked')
    expect(await faultOf(b.secrets.read('pass'))).toBe('locked')
    expect(await next.secrets.read('pass')).toBe('roster 1')
  })

  it('are not written beside a PIN of which a page has not heard', async () => {
    const browser = browserOf()
    const [a, b] = [await browser.page(), await browser.page()]
    await a.secrets.update('pass', () => 'roster 1')
    await a.vault.setUp(PIN)
    await a.secrets.reseal()
    expect(await faultOf(b.secrets.update('pass', () => 'roster 2'))).toBe('locked')
    expect((await browser.rows.read('pass'))?.by).toBe('vault')
    await b.vault.open(PIN)
    await b.secrets.update('pass', () => 'roster 2')
    expect(await a.secrets.read('pass')).toBe('roster 2')
  })

  it('stay open where the other page has changed the PIN, or the recovery key', async () => {
    const { a, b } = await unsealing()
    await a.vault.changePin(PIN, '735501')
    await b.secrets.update('pass', () => 'roster 2')
    await a.vault.renewRecovery('735501')
    await b.secrets.update('pass', () => 'roster 3')
    expect(await a.secrets.read('pass')).toBe('roster 3')
  })
})

describe('secrets of a browser', () => {
  it('stand beside the key that signs, which stays when they go', async () => {
    const before = await createBrowserDeviceKey(clock, 'beside').identity()
    const store = createSecretStore(createBrowserSecretRows(clock, 'beside'), quickVault())
    await store.update('pass', () => 'text')
    await store.clear()
    expect(await createBrowserDeviceKey(clock, 'beside').identity()).toEqual(before)
  })

  it('that were damaged are told and not written over', async () => {
    const rows = createBrowserSecretRows(clock, 'damaged')
    const store = createSecretStore(rows, quickVault())
    await store.update('pass', () => 'text')
    for (const bad of ['text', { by: 'device', revision: 1, iv: 'x', data: 'y' }, null]) {
      const db = await openDB('damaged', 1)
      await db.put('keys', bad, 'secret-pass')
      db.close()
      expect(await faultOf(store.read('pass'))).toBe('damaged')
      expect(await faultOf(store.update('pass', () => 'other'))).toBe('damaged')
    }
  })
})
