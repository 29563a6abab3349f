import 'fake-indexeddb/auto'
import { openDB } from 'idb'
import { afterEach, describe, expect, it } from 'vitest'
import { createConnection } from '../../../src/adapters/storage/connection.ts'
import {
  createIndexedDbHandOverStore,
  createMemoryHandOverStore,
} from '../../../src/adapters/storage/handOverStore.ts'
import { createIndexedDbLogStore } from '../../../src/adapters/storage/indexeddb.ts'
import { createSealedRows } from '../../../src/adapters/storage/sealedRows.ts'
import { sealStored } from '../../../src/adapters/storage/sealStored.ts'
import { unsealStored } from '../../../src/adapters/storage/unsealStored.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import { drawKey } from '../../../src/core/handOver/handOverRow.ts'
import type { HandOverStore } from '../../../src/ports/handOverStore.ts'
import {
  handOverStoreContract,
  REFUSAL,
  sampleLeaving,
  sampleRow,
} from '../../contract/handOverStore.contract.ts'
import { sampleLog, sha256 } from '../../support/sampleLog.ts'
import { closePages, PIN, sealedPage } from '../../support/sealedPage.ts'

const clock = createSystemClock('boot')
const names = new Map<HandOverStore, string>()
let count = 0
afterEach(closePages)

function storeOn(name: string): Promise<HandOverStore> {
  const store = createIndexedDbHandOverStore(createConnection({ clock, name }))
  names.set(store, name)
  return Promise.resolve(store)
}

handOverStoreContract(
  'IndexedDB',
  () => storeOn(`hand-over-${(count += 1)}`),
  (store) => storeOn(names.get(store) ?? ''),
)
handOverStoreContract('memory', () => Promise.resolve(createMemoryHandOverStore()))
handOverStoreContract('sealed IndexedDB', async () => {
  const { connection, vault } = await sealedPage()
  return createIndexedDbHandOverStore(connection, createSealedRows(vault))
})

const refused = sampleRow({ state: 'refused', refusal: REFUSAL })

/** Whether what the server said stands anywhere in the database. */
async function isPlain(connection: Parameters<typeof createIndexedDbHandOverStore>[0]) {
  const rows = await connection.run((db) => db.getAll('handOver'))
  return JSON.stringify(rows).includes('MRN-104')
}

describe('what a server said of a patient, and a PIN', () => {
  it('is sealed as it is written, and not to be read while it is locked', async () => {
    const { connection, vault } = await sealedPage()
    const store = createIndexedDbHandOverStore(connection, createSealedRows(vault))
    await store.swap(0, refused)
    expect(await isPlain(connection)).toBe(false)
    vault.lock()
    await expect(store.rows()).rejects.toMatchObject({ fault: 'locked' })
    await expect(store.swap(1, refused)).rejects.toMatchObject({ fault: 'locked' })
    // That something left names nobody, and is told whatever happens.
    await store.note(sampleLeaving(1), 10)
    await vault.open(PIN)
    expect((await store.rows())[0]?.row).toEqual(refused)
  })

  it('is sealed when a PIN is set later, and put back in plain before the PIN goes', async () => {
    const { connection, vault } = await sealedPage(undefined, 'none')
    const codec = createSealedRows(vault)
    const store = createIndexedDbHandOverStore(connection, codec)
    await store.swap(0, refused)
    expect(await isPlain(connection)).toBe(true)
    await vault.setUp(PIN)
    await sealStored(connection, codec)
    expect(await isPlain(connection)).toBe(false)
    expect((await store.rows())[0]?.row).toEqual(refused)
    await vault.turnOff(PIN)
    await unsealStored(connection, codec)
    expect(await isPlain(connection)).toBe(true)
  })

  it('is not written in plain by a page that does not know of the PIN', async () => {
    const { connection, name } = await sealedPage()
    const other = createIndexedDbHandOverStore(createConnection({ clock, name }))
    await expect(other.swap(0, refused)).rejects.toMatchObject({ fault: 'locked' })
    expect(await other.swap(0, sampleRow())).toBe(true)
    expect(await isPlain(connection)).toBe(false)
  })
})

it('a record that is erased takes with it what a server said of it, and what left stays told', async () => {
  const connection = createConnection({ clock, name: 'hand-over-erased' })
  const logs = createIndexedDbLogStore(connection, sha256)
  const store = createIndexedDbHandOverStore(connection)
  const { drawId, entries } = sampleLog()
  await logs.append(drawId, entries)
  await store.swap(0, sampleRow({ key: drawKey(drawId), about: drawId, refusal: REFUSAL }))
  await store.note(sampleLeaving(1, { about: drawId }), 10)
  await logs.erase(drawId)
  expect(await store.rows()).toEqual([])
  expect(await store.leavings()).toHaveLength(1)
})

it('a database of version 6 keeps what it has and gets room for the hand-over', async () => {
  const name = 'hand-over-of-version-6'
  const stores = ['entries', 'draws', 'settings', 'originals', 'numbers', 'superseded', 'vault'] // prettier-ignore
  const later = ['running', 'days', 'hubEntries', 'hubRead', 'hubNotes']
  const db = await openDB(name, 6, {
    upgrade: (old) => {
      for (const store of [...stores, ...later]) old.createObjectStore(store)
      // What a site had set must still be there.
    },
  })
  await db.put('settings', '{"a":1}', 'settings')
  db.close()
  const connection = createConnection({ clock, name })
  const store = createIndexedDbHandOverStore(connection)
  expect(await store.swap(0, sampleRow())).toBe(true)
  expect(await connection.run((d) => d.get('settings', 'settings'))).toBe('{"a":1}')
})
