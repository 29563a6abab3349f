import 'fake-indexeddb/auto'
import { openDB } from 'idb'
import { describe, expect, it } from 'vitest'
import { createConnection } from '../../../src/adapters/storage/connection.ts'
import { createIndexedDbDayStore } from '../../../src/adapters/storage/dayStore.ts'
import {
  createIndexedDbHubStore,
  createMemoryHubStore,
} from '../../../src/adapters/storage/hubStore.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import type { HubStore } from '../../../src/ports/hubStore.ts'
import { hubEntry, hubStoreContract } from '../../contract/hubStore.contract.ts'
import { dayEntries, sampleListed } from '../../support/sampleDay.ts'
import { sha256 } from '../../support/sampleLog.ts'

const clock = createSystemClock('boot')
const names = new Map<HubStore, string>()
let count = 0

function storeOn(name: string): Promise<HubStore> {
  const store = createIndexedDbHubStore(createConnection({ clock, name }))
  names.set(store, name)
  return Promise.resolve(store)
}

hubStoreContract(
  'IndexedDB',
  () => storeOn(`hub-${(count += 1)}`),
  (store) => storeOn(names.get(store) ?? ''),
)
hubStoreContract('memory', () => Promise.resolve(createMemoryHubStore()))

describe('a database of version 5', () => {
  it('keeps its days and gets room for the hub', async () => {
    const name = 'hub-of-version-5'
    const db = await openDB(name, 5, {
      upgrade: (old) => {
        for (const store of ['entries', 'draws', 'settings', 'originals', 'numbers'])
          old.createObjectStore(store)
        for (const store of ['superseded', 'vault', 'running', 'days']) old.createObjectStore(store)
      },
    })
    const entries = dayEntries([{ type: 'orderListed', order: sampleListed() }])
    for (const entry of entries) await db.put('days', entry, ['2026-11-25', entry.seq])
    db.close()
    const store = await storeOn(name)
    await store.add(0, [hubEntry(1)])
    expect(await store.entries()).toHaveLength(1)
    const days = createIndexedDbDayStore(createConnection({ clock, name }), sha256)
    expect((await days.load('2026-11-25')).entries).toEqual(entries)
  })
})
