import 'fake-indexeddb/auto'
import { afterEach, describe, expect, it } from 'vitest'
import { createSealedRows } from '../../../src/adapters/storage/sealedRows.ts'
import { sealStored } from '../../../src/adapters/storage/sealStored.ts'
import { unsealStored } from '../../../src/adapters/storage/unsealStored.ts'
import type { LogStore } from '../../../src/ports/logStore.ts'
import { logStoreContract } from '../../contract/logStore.contract.ts'
import { logOf, sampleLog, sampleOpening, straightLines } from '../../support/sampleLog.ts'
import { closePages, PIN, sealedPage, type Device } from '../../support/sealedPage.ts'

const devices = new Map<LogStore, Device>()

const page: typeof sealedPage = async (...as) => {
  const device = await sealedPage(...as)
  devices.set(device.store, device)
  return device
}

afterEach(closePages)

logStoreContract(
  'sealed IndexedDB',
  async () => (await page()).store,
  async (store) => (await page(devices.get(store)?.name)).store,
)

logStoreContract(
  'IndexedDB with a vault and no PIN',
  async () => (await page(undefined, 'none')).store,
)

const { drawId, entries } = sampleLog()
/** Words of the sample draw. The test prints no more than these of what it finds. */
const SECRETS = /Alex Invented|MRN-000123|1980-02-29|ORD-77|Placeholder|consentGiven/g

/** Which of them stand anywhere in the database, in any store. */
async function secretsIn({ connection }: Device): Promise<string[]> {
  const rows = await connection.run(async (db) => {
    const all = [...db.objectStoreNames].map(async (name) => [
      name,
      await db.getAllKeys(name),
      await db.getAll(name),
    ])
    return Promise.all(all)
  })
  const text = JSON.stringify(rows, (_key, value: unknown) =>
    value instanceof Uint8Array ? Buffer.from(value).toString('latin1') : value,
  )
  return [...new Set(text.match(SECRETS))]
}

describe('what is stored with a PIN', () => {
  it('names no patient, no order and nothing that happened', async () => {
    const device = await page()
    await device.store.append(drawId, entries)
    await device.store.adopt(
      logOf(straightLines(sampleOpening({ drawId: 'D7-20261125-0009' }))),
      'the text of Alex Invented as it came',
    )
    expect(await secretsIn(device)).toEqual([])
    const plain = await page(undefined, 'none')
    await plain.store.append(drawId, entries)
    expect(await secretsIn(plain)).not.toEqual([])
  })

  it('cannot be read, listed or added to while it is locked', async () => {
    const device = await page()
    await device.store.append(drawId, entries.slice(0, 5))
    device.vault.lock()
    const locked = { fault: 'locked' }
    await expect(device.store.list()).rejects.toMatchObject(locked)
    await expect(device.store.load(drawId)).rejects.toMatchObject(locked)
    await expect(device.store.append(drawId, entries.slice(5))).rejects.toMatchObject(locked)
    await device.vault.open(PIN)
    expect((await device.store.load(drawId))?.entries).toEqual(entries.slice(0, 5))
  })

  it('still gives numbers while it is locked: they name nobody', async () => {
    const device = await page()
    await device.store.append(drawId, entries)
    device.vault.lock()
    expect(await device.store.reserveNumber('D7', '2026-11-25')).toBe(4)
  })

  it('is not written beside by a page that does not know of the PIN yet', async () => {
    const late = await page(undefined, 'none')
    await late.store.append(drawId, entries.slice(0, 3))
    const other = await page(late.name)
    expect(other.vault.state()).toBe('open')
    const write = late.store.append(drawId, entries.slice(3, 5))
    await expect(write).rejects.toMatchObject({ fault: 'locked' })
    expect(await late.vault.load()).toBe('locked')
    await late.vault.open(PIN)
    await late.store.append(drawId, entries.slice(3, 5))
    expect((await other.store.load(drawId))?.entries).toEqual(entries.slice(0, 5))
  })

  it('is damaged, and said to be, when one sealed entry stands in the place of another', async () => {
    const device = await page()
    await device.store.append(drawId, entries)
    await device.connection.run(async (db) => {
      const row = await db.get('entries', [drawId, 4])
      const other = await db.get('entries', [drawId, 5])
      if (row && other) await db.put('entries', { ...other, seq: 4, hash: row.hash }, [drawId, 4])
    })
    await expect(device.store.load(drawId)).rejects.toMatchObject({ fault: 'damaged' })
  })

  it('says that the chain is broken when a plain entry was put in the place of a sealed one', async () => {
    const device = await page()
    await device.store.append(drawId, entries)
    const forged = { ...entries[6]!, by: 'forger' }
    await device.connection.run((db) => db.put('entries', forged, [drawId, 7]))
    expect((await device.store.load(drawId))?.fault).toMatchObject({ kind: 'brokenHash', seq: 7 })
  })
})

describe('an upgrade to a PIN', () => {
  const others = ['D7-20261125-0011', 'D7-20261125-0012', 'D7-20261125-0013']

  async function plainDevice(): Promise<Device> {
    const device = await page(undefined, 'none')
    await device.store.append(drawId, entries)
    for (const id of others) {
      const log = logOf(straightLines(sampleOpening({ drawId: id })))
      await device.store.adopt(log, `the text of Alex Invented, ${id}`)
    }
    return device
  }
  const allOf = async ({ store }: Device) => ({
    draws: await store.list(),
    logs: await Promise.all([drawId, ...others].map((id) => store.load(id))),
    originals: await Promise.all(others.map((id) => store.original(id))),
  })
  const codecOf = ({ vault }: Device) => createSealedRows(vault)

  it('seals all that is stored, and gives it back unchanged', async () => {
    const device = await plainDevice()
    const before = await allOf(device)
    await device.vault.setUp(PIN)
    const steps: string[] = []
    await sealStored(device.connection, codecOf(device), (done, of) => steps.push(`${done}/${of}`))
    expect(steps).toEqual(['0/4', '1/4', '2/4', '3/4', '4/4'])
    expect(await secretsIn(device)).toEqual([])
    expect(await allOf(device)).toEqual(before)
    await sealStored(device.connection, codecOf(device))
    expect(await allOf(device)).toEqual(before)
  })

  it.each([0, 1, 2, 3])('interrupted after %s draws loses nothing and goes on', async (after) => {
    const device = await plainDevice()
    const before = await allOf(device)
    await device.vault.setUp(PIN)
    const cut = sealStored(device.connection, codecOf(device), (done) => {
      if (done === after) throw new Error('The tablet was switched off.')
    })
    await expect(cut).rejects.toThrow(/switched off/)
    const again = await page(device.name)
    expect(again.vault.isSealing()).toBe(true)
    expect(await allOf(again)).toEqual(before)
    await sealStored(again.connection, codecOf(again))
    await again.vault.sealed()
    expect(await secretsIn(again)).toEqual([])
    expect(await allOf(again)).toEqual(before)
    const later = await page(device.name, 'locked')
    expect(later.vault.isSealing()).toBe(false)
  })

  it('half done is no way around the PIN', async () => {
    const device = await plainDevice()
    await device.vault.setUp(PIN)
    const locked = await page(device.name, 'locked')
    await expect(locked.store.load(drawId)).rejects.toMatchObject({ fault: 'locked' })
    await expect(locked.store.list()).rejects.toMatchObject({ fault: 'locked' })
    await expect(locked.store.original(others[0]!)).rejects.toMatchObject({ fault: 'locked' })
  })

  it('lets a draw be recorded meanwhile', async () => {
    const device = await page(undefined, 'none')
    await device.store.append(drawId, entries.slice(0, 4))
    await device.vault.setUp(PIN)
    await Promise.all([
      sealStored(device.connection, codecOf(device)),
      device.store.append(drawId, entries.slice(4)),
    ])
    expect((await device.store.load(drawId))?.entries).toEqual(entries)
    await sealStored(device.connection, codecOf(device))
    expect(await secretsIn(device)).toEqual([])
  })
})

describe('turning a PIN off', () => {
  const other = 'D7-20261125-0011'

  async function sealedDevice(): Promise<Device> {
    const device = await page()
    await device.store.append(drawId, entries)
    const log = logOf(straightLines(sampleOpening({ drawId: other })))
    await device.store.adopt(log, 'the text of Alex Invented as it came')
    return device
  }
  const allOf = async ({ store }: Device) => ({
    draws: await store.list(),
    logs: await Promise.all([drawId, other].map((id) => store.load(id))),
    original: await store.original(other),
  })
  const codecOf = ({ vault }: Device) => createSealedRows(vault)

  it('puts all that is sealed back in plain, unchanged, and then takes the vault away', async () => {
    const device = await sealedDevice()
    const before = await allOf(device)
    expect((await device.vault.turnOff('000001')).kind).toBe('wrong')
    expect(device.vault.isUnsealing()).toBe(false)
    expect(await device.vault.turnOff(PIN)).toEqual({ kind: 'open' })
    await unsealStored(device.connection, codecOf(device))
    expect(await device.vault.load()).toBe('none')
    expect(device.vault.state()).toBe('none')
    expect(await allOf(device)).toEqual(before)
    expect(await secretsIn(device)).not.toEqual([])
    const later = await page(device.name, 'none')
    expect(later.vault.state()).toBe('none')
    expect(await allOf(later)).toEqual(before)
    await later.store.append('D7-20261125-0012', logOf(straightLines(sampleOpening({ drawId: 'D7-20261125-0012' }))).entries) // prettier-ignore
  })

  it.each([0, 1])(
    'interrupted after %s draws holds the PIN, loses nothing and goes on',
    async (after) => {
      const device = await sealedDevice()
      const before = await allOf(device)
      await device.vault.turnOff(PIN)
      const cut = unsealStored(device.connection, codecOf(device), (done) => {
        if (done === after) throw new Error('The tablet was switched off.')
      })
      await expect(cut).rejects.toThrow(/switched off/)
      const locked = await page(device.name, 'locked')
      expect(locked.vault.state()).toBe('locked')
      await expect(locked.store.load(drawId)).rejects.toMatchObject({ fault: 'locked' })
      const again = await page(device.name)
      expect(again.vault.isUnsealing()).toBe(true)
      expect(await allOf(again)).toEqual(before)
      await unsealStored(again.connection, codecOf(again))
      expect(await again.vault.load()).toBe('none')
      expect(await allOf(again)).toEqual(before)
    },
  )

  it('turns also what is recorded meanwhile, and takes the vault away only then', async () => {
    const device = await page()
    await device.store.append(drawId, entries.slice(0, 4))
    await device.vault.turnOff(PIN)
    let write: Promise<unknown> | undefined
    await unsealStored(device.connection, codecOf(device), (done) => {
      // Written sealed, or, where the vault was gone first, refused and tried again.
      if (done === 0) write ??= device.store.append(drawId, entries.slice(4)).catch(() => undefined)
    })
    await write
    expect(await device.vault.load()).toBe('none')
    await device.store.append(drawId, entries.slice(4))
    expect((await (await page(device.name, 'none')).store.load(drawId))?.entries).toEqual(entries)
  })

  it('lets no page with the old key seal what nobody could open again', async () => {
    const device = await sealedDevice()
    const late = await page(device.name)
    await device.vault.turnOff(PIN)
    await unsealStored(device.connection, codecOf(device))
    const id = 'D7-20261125-0013'
    const log = logOf(straightLines(sampleOpening({ drawId: id })))
    const write = late.store.append(id, log.entries)
    await expect(write).rejects.toMatchObject({ fault: 'locked' })
    expect(await late.vault.load()).toBe('none')
    await late.store.append(id, log.entries)
    expect((await late.store.load(id))?.entries).toEqual(log.entries)
  })
})
