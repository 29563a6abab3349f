import 'fake-indexeddb/auto'
import { openDB } from 'idb'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { openDatabase, readable, type Database } from '../../../src/adapters/storage/database.ts'
import {
  createIndexedDbLogStore,
  createIndexedDbSettingsStore,
} from '../../../src/adapters/storage/indexeddb.ts'
import type { LogStore } from '../../../src/ports/logStore.ts'
import { logStoreContract } from '../../contract/logStore.contract.ts'
import { sampleLog } from '../../support/sampleLog.ts'

const open: Database[] = []
let count = 0
const names = new Map<LogStore, string>()

async function storeOn(name: string): Promise<LogStore> {
  const db = await openDatabase(name)
  open.push(db)
  const store = createIndexedDbLogStore(db)
  names.set(store, name)
  return store
}

afterEach(() => {
  open.splice(0).forEach((db) => db.close())
})

logStoreContract(
  'IndexedDB',
  () => storeOn(`test-${(count += 1)}`),
  (store) => storeOn(names.get(store) ?? ''),
)

describe('the database', () => {
  const { drawId, entries } = sampleLog()

  it('still has everything after it was closed and opened again', async () => {
    const name = `test-${(count += 1)}`
    await (await storeOn(name)).append(drawId, entries)
    open.splice(0).forEach((db) => db.close())
    expect((await (await storeOn(name)).load(drawId))?.entries).toEqual(entries)
  })

  it('asks for durability before it says that something is written', async () => {
    const db = await openDatabase(`test-${(count += 1)}`)
    open.push(db)
    const transaction = vi.spyOn(db, 'transaction')
    await createIndexedDbLogStore(db).append(drawId, entries)
    expect(transaction.mock.calls[0]?.[2]).toEqual({ durability: 'strict' })
  })

  it('keeps settings', async () => {
    const db = await openDatabase(`test-${(count += 1)}`)
    open.push(db)
    const settings = createIndexedDbSettingsStore(db)
    expect(await settings.read('a')).toBeUndefined()
    await settings.write('a', '1')
    await settings.write('a', '2')
    expect(await settings.read('a')).toBe('2')
  })

  it('says in words that the storage is full', async () => {
    const full = Promise.reject(new DOMException('quota', 'QuotaExceededError'))
    await expect(readable(full)).rejects.toThrow(/storage of this browser is full/)
  })

  it('says in words that a newer version has been here', async () => {
    const name = `test-${(count += 1)}`
    const newer = await openDB(name, 99)
    newer.close()
    await expect(openDatabase(name)).rejects.toThrow(/newer Stillhand/)
  })

  it('brings a database of version 1 up and keeps what is in it', async () => {
    const name = `test-${(count += 1)}`
    const older = await openDB(name, 1, {
      upgrade: (db) => {
        for (const store of ['entries', 'draws', 'settings']) db.createObjectStore(store)
      },
    })
    for (const entry of entries) await older.put('entries', entry, [drawId, entry.seq])
    older.close()
    const store = await storeOn(name)
    expect((await store.load(drawId))?.entries).toEqual(entries)
    expect(await store.original(drawId)).toBeUndefined()
  })

  it('says in words that it was closed under its feet', async () => {
    const db = await openDatabase(`test-${(count += 1)}`)
    db.close()
    await expect(createIndexedDbLogStore(db).list()).rejects.toThrow(/Reload the page/)
  })
})
