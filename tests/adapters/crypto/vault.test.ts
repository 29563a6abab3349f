import { scrypt } from '@noble/hashes/scrypt.js'
import { bytesToHex } from '@noble/hashes/utils.js'
import { describe, expect, it } from 'vitest'
import { newParameters, slowKeyNow } from '../../../src/adapters/crypto/slowKey.ts'
import { createWorkerSlowKey } from '../../../src/adapters/crypto/workerSlowKey.ts'
import { createMemoryVaultStore } from '../../../src/adapters/storage/vaultStore.ts'
import { pinWait_ms } from '../../../src/core/lock/pin.ts'
import { quickVault, vaultClock } from '../../support/vaults.ts'

const PIN = '482913'
const WRONG = '000001'

describe('the slow key', () => {
  it('is scrypt as RFC 7914 has it', () => {
    // RFC 7914, section 12, second and third vector.
    const second = scrypt('password', 'NaCl', { N: 1024, r: 8, p: 16, dkLen: 64 })
    expect(bytesToHex(second).slice(0, 64)).toBe(
      'fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162',
    )
    const salt = bytesToHex(new TextEncoder().encode('SodiumChloride'))
    const third = slowKeyNow('pleaseletmein', { name: 'scrypt', N: 16384, r: 8, p: 1, salt })
    expect(bytesToHex(third)).toBe(
      '7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2',
    )
  })

  it('uses 128 MiB', () => {
    const { N, r, p } = newParameters(new Uint8Array(16))
    expect([(128 * N * r * p) / 2 ** 20, p]).toEqual([128, 1])
  })

  it('is made by the page where no worker can be started', async () => {
    const parameters = { name: 'scrypt', N: 16, r: 1, p: 1, salt: '00' } as const
    const alone = createWorkerSlowKey(() => {
      throw new Error('no workers here')
    })
    expect(await alone(PIN, parameters)).toEqual(slowKeyNow(PIN, parameters))
  })
})

describe('wrong PINs', () => {
  async function wrongTimes(times: number) {
    const store = createMemoryVaultStore()
    const clock = vaultClock()
    const vault = quickVault(store, clock)
    await vault.setUp(PIN)
    vault.lock()
    for (let n = 0; n < times; n++) {
      clock.advance(vault.wait_ms())
      expect((await vault.open(WRONG)).kind).toBe('wrong')
    }
    return { store, clock, vault }
  }

  it('cost growing time, in which the right PIN is not even tried', async () => {
    const { vault, clock } = await wrongTimes(4)
    expect(vault.wait_ms()).toBe(pinWait_ms(4))
    expect(await vault.open(PIN)).toEqual({ kind: 'wait', wait_ms: 15_000 })
    clock.advance(14_999)
    expect((await vault.open(PIN)).kind).toBe('wait')
    clock.advance(1)
    expect((await vault.open(PIN)).kind).toBe('open')
    expect(vault.wait_ms()).toBe(0)
  })

  it('still cost it after a reload, and after the clock of the wall was set forward', async () => {
    const { store } = await wrongTimes(5)
    const clock = vaultClock('b')
    clock.setWall(86_400_000)
    const page = quickVault(store, clock)
    expect(await page.load()).toBe('locked')
    expect(page.wait_ms()).toBe(30_000)
    expect((await page.open(PIN)).kind).toBe('wait')
    clock.advance(30_000)
    expect((await page.open(PIN)).kind).toBe('open')
  })

  it('are counted before they are tried, so that a reload in the middle gives nothing back', async () => {
    const store = createMemoryVaultStore()
    const vault = quickVault(store)
    await vault.setUp(PIN)
    void vault.open(WRONG)
    await Promise.resolve()
    expect((await store.read())?.wrong).toBe(1)
  })

  it('in many pages are tried no faster than in one', async () => {
    const { store, clock } = await wrongTimes(8)
    const pages = await Promise.all(
      Array.from({ length: 20 }, async () => {
        const page = quickVault(store, clock)
        await page.load()
        return page
      }),
    )
    let tried = 0
    for (let minute = 0; minute < 60; minute++) {
      clock.advance(60_000)
      for (const page of pages) if ((await page.open(WRONG)).kind === 'wrong') tried++
    }
    expect(tried).toBeLessThanOrEqual(12)
  })

  it('also cost time where a PIN is to be changed or a new recovery key is asked for', async () => {
    const { vault } = await wrongTimes(3)
    expect((await vault.changePin(PIN, '771144')).kind).toBe('wait')
    expect(await vault.renewRecovery(PIN)).toEqual({ kind: 'wait', wait_ms: 5000 })
  })
})

describe('the recovery key', () => {
  it('opens without waiting, sets a new PIN, and the old PIN opens nothing', async () => {
    const store = createMemoryVaultStore()
    const vault = quickVault(store)
    const recoveryKey = await vault.setUp(PIN)
    const sealed = await vault.seal('a', 'text')
    for (let n = 0; n < 3; n++) await vault.open(WRONG)
    vault.lock()
    const page = quickVault(store)
    await page.load()
    expect(page.wait_ms()).toBeGreaterThan(0)
    expect(await page.openByRecovery(recoveryKey.toLowerCase(), '771144')).toBe(true)
    expect(await page.unseal('a', sealed)).toBe('text')
    const later = quickVault(store)
    await later.load()
    expect((await later.open(PIN)).kind).toBe('wrong')
    expect((await later.open('771144')).kind).toBe('open')
  })

  it('is given anew for the PIN, and the old one opens nothing', async () => {
    const store = createMemoryVaultStore()
    const vault = quickVault(store)
    const old = await vault.setUp(PIN)
    const answer = await vault.renewRecovery(PIN)
    expect(answer.kind).toBe('open')
    const page = quickVault(store)
    expect(await page.openByRecovery(old, PIN)).toBe(false)
    expect(await page.openByRecovery(answer.recoveryKey ?? '', PIN)).toBe(true)
  })
})

describe('setting up', () => {
  it('happens once: the second of two pages is refused and changes nothing', async () => {
    const store = createMemoryVaultStore()
    const [one, two] = [quickVault(store), quickVault(store)]
    const recoveryKey = await one.setUp(PIN)
    await expect(two.setUp('771144')).rejects.toThrow(/already set/)
    const page = quickVault(store)
    await page.load()
    expect((await page.open(PIN)).kind).toBe('open')
    expect(await page.openByRecovery(recoveryKey, PIN)).toBe(true)
  })

  it('is needed before anything is sealed', async () => {
    const vault = quickVault()
    expect(await vault.load()).toBe('none')
    expect(vault.state()).toBe('none')
    await expect(vault.seal('a', 'text')).rejects.toMatchObject({ fault: 'locked' })
  })

  it('a lock takes the key away', async () => {
    const vault = quickVault()
    await vault.setUp(PIN)
    expect(vault.state()).toBe('open')
    const sealed = await vault.seal('a', 'text')
    vault.lock()
    expect(vault.state()).toBe('locked')
    await expect(vault.unseal('a', sealed)).rejects.toMatchObject({ fault: 'locked' })
  })
})
