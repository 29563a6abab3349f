import 'fake-indexeddb/auto'
import { openDB } from 'idb'
import { afterEach, describe, expect, it } from 'vitest'
import { createConnection } from '../../../src/adapters/storage/connection.ts'
import {
  createIndexedDbDayStore,
  createMemoryDayStore,
} from '../../../src/adapters/storage/dayStore.ts'
import { createIndexedDbLogStore } from '../../../src/adapters/storage/indexeddb.ts'
import { createSealedRows } from '../../../src/adapters/storage/sealedRows.ts'
import { sealStored } from '../../../src/adapters/storage/sealStored.ts'
import { unsealStored } from '../../../src/adapters/storage/unsealStored.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import type { DayStore } from '../../../src/ports/dayStore.ts'
import { dayStoreContract } from '../../contract/dayStore.contract.ts'
import { dayEntries, sampleListed } from '../../support/sampleDay.ts'
import { sampleLog, sha256 } from '../../support/sampleLog.ts'
import { closePages, PIN, sealedPage as page, type Device } from '../../support/sealedPage.ts'

const clock = createSystemClock('boot')
afterEach(closePages)

const names = new Map<DayStore, string>()
let count = 0

function storeOn(name: string): Promise<DayStore> {
  const store = createIndexedDbDayStore(createConnection({ clock, name }), sha256)
  names.set(store, name)
  return Promise.resolve(store)
}

dayStoreContract(
  'IndexedDB',
  () => storeOn(`days-${(count += 1)}`),
  (store) => storeOn(names.get(store) ?? ''),
)
dayStoreContract('memory', () => Promise.resolve(createMemoryDayStore(sha256)))

const day = '2026-11-25'
const entries = dayEntries([
  { type: 'orderListed', order: sampleListed() },
  { type: 'orderCalled', orderIds: ['KM47-20261125-L1'] },
  { type: 'orderNotFound', orderIds: ['KM47-20261125-L1'] },
])

describe('a database of version 4', () => {
  it('keeps its draws and gets days', async () => {
    const name = 'days-of-version-4'
    const { drawId, entries: drawn } = sampleLog()
    const db = await openDB(name, 4, {
      upgrade: (old) => {
        for (const store of ['entries', 'draws', 'settings', 'originals', 'numbers'])
          old.createObjectStore(store)
        for (const store of ['superseded', 'vault', 'running']) old.createObjectStore(store)
      },
    })
    for (const entry of drawn) await db.put('entries', entry, [drawId, entry.seq])
    const row = { drawId, opened_ms: 1, closed: false, invented: true, logVersion: 1 }
    await db.put('draws', { ...row, patientName: 'Alex Invented' }, drawId)
    db.close()
    const store = await storeOn(name)
    await store.append(day, entries)
    expect((await store.load(day)).entries).toEqual(entries)
    const logs = createIndexedDbLogStore(createConnection({ clock, name }), sha256)
    expect((await logs.load(drawId))?.entries).toEqual(drawn)
  })
})

it('says from which entry on a stored day was changed, and gives what stands before', async () => {
  const name = `days-${(count += 1)}`
  const store = await storeOn(name)
  await store.append(day, entries)
  const connection = createConnection({ clock, name })
  await connection.run((db) => db.put('days', { ...entries[1]!, by: 'forger' } as never, [day, 2]))
  const read = await store.load(day)
  expect(read.fault).toMatchObject({ kind: 'brokenHash', seq: 2 })
  expect(read.entries).toEqual(entries.slice(0, 1))
})

describe('the days of a device with a PIN', () => {
  const daysOf = ({ connection, vault }: Device): DayStore =>
    createIndexedDbDayStore(connection, sha256, createSealedRows(vault))
  const textIn = async ({ connection }: Device): Promise<string> =>
    JSON.stringify(await connection.run((db) => db.getAll('days')), (_key, value: unknown) =>
      value instanceof Uint8Array ? Buffer.from(value).toString('latin1') : value,
    )

  it('name nobody while they lie on the disk, and cannot be read while it is locked', async () => {
    const device = await page()
    await daysOf(device).append(day, entries)
    expect(await textIn(device)).not.toMatch(/Invented|MRN/)
    expect((await daysOf(device).load(day)).entries).toEqual(entries)
    device.vault.lock()
    await expect(daysOf(device).load(day)).rejects.toMatchObject({ fault: 'locked' })
    await expect(daysOf(device).append(day, entries)).rejects.toMatchObject({ fault: 'locked' })
  })

  it('are sealed when a PIN is set, and put back in plain when it is turned off', async () => {
    const device = await page(undefined, 'none')
    await daysOf(device).append(day, entries)
    expect(await textIn(device)).toMatch(/Invented/)
    await device.vault.setUp(PIN)
    await sealStored(device.connection, createSealedRows(device.vault))
    expect(await textIn(device)).not.toMatch(/Invented|MRN/)
    expect((await daysOf(device).load(day)).entries).toEqual(entries)
    await device.vault.turnOff(PIN)
    await unsealStored(device.connection, createSealedRows(device.vault))
    expect(await device.vault.load()).toBe('none')
    expect(await textIn(device)).toMatch(/Invented/)
    expect((await daysOf(device).load(day)).entries).toEqual(entries)
  })

  it('are not written beside the vault by a page that does not know of it yet, nor sealed after it has gone', async () => {
    const late = await page(undefined, 'none')
    await daysOf(late).append(day, entries.slice(0, 1))
    const other = await page(late.name)
    const locked = { fault: 'locked' }
    await expect(daysOf(late).append(day, entries.slice(1))).rejects.toMatchObject(locked)
    await daysOf(other).append(day, entries.slice(1))
    await other.vault.turnOff(PIN)
    await unsealStored(other.connection, createSealedRows(other.vault))
    expect((await daysOf(await page(late.name, 'none')).load(day)).entries).toEqual(entries)
  })

  it('what is listed while the PIN is turned off is turned too', async () => {
    const device = await page()
    await daysOf(device).append(day, entries.slice(0, 1))
    await device.vault.turnOff(PIN)
    const before = sampleLog()
    await device.store.append(before.drawId, before.entries)
    let write: Promise<unknown> | undefined
    await unsealStored(device.connection, createSealedRows(device.vault), () => {
      write ??= daysOf(device)
        .append(day, entries.slice(1))
        .catch(() => undefined)
    })
    await write
    expect(await device.vault.load()).toBe('none')
    await daysOf(device).append(day, entries)
    expect((await daysOf(await page(device.name, 'none')).load(day)).entries).toEqual(entries)
  })
})
