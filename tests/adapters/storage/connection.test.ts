import 'fake-indexeddb/auto'
import { openDB } from 'idb'
import { afterEach, describe, expect, it } from 'vitest'
import {
  createConnection,
  WRITE_PATIENCE_ms,
  type Connection,
} from '../../../src/adapters/storage/connection.ts'
import { createIndexedDbLogStore } from '../../../src/adapters/storage/indexeddb.ts'
import { DATABASE_VERSION, type Database } from '../../../src/adapters/storage/schema.ts'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import { sampleLog, sha256 } from '../../support/sampleLog.ts'

const { drawId, entries } = sampleLog()
const clock = createSimulatedClock({ wall_ms: 0, mono_ms: 0, boot: 'a', offset_min: 0 })
const open: Connection[] = []
let count = 0

function connect(name = `connection-${(count += 1)}`, mayLetGo?: () => boolean): Connection {
  const connection = createConnection(mayLetGo ? { clock, name, mayLetGo } : { clock, name })
  open.push(connection)
  return connection
}
const settle = (): Promise<void> => new Promise((done) => setTimeout(done, 20))

afterEach(() => {
  open.splice(0).forEach((connection) => connection.close())
})

describe('a connection that was cut', () => {
  it('is opened again, and the work is done', async () => {
    const connection = connect()
    const store = createIndexedDbLogStore(connection, sha256)
    await store.append(drawId, entries.slice(0, 3))
    await connection.run(async (db) => db.close())
    await store.append(drawId, entries.slice(3, 5))
    expect((await store.load(drawId))?.entries).toEqual(entries.slice(0, 5))
  })

  it('in the middle of the work does not double what was written', async () => {
    const connection = connect()
    const store = createIndexedDbLogStore(connection, sha256)
    await store.append(drawId, entries.slice(0, 3))
    let cuts = 0
    await connection.run(async (db) => {
      if (cuts++ > 0) return
      await store.append(drawId, entries.slice(3, 4))
      db.close()
      db.transaction('entries')
    })
    expect(cuts).toBe(2)
    await store.append(drawId, entries.slice(3, 4))
    expect((await store.load(drawId))?.entries).toEqual(entries.slice(0, 4))
  })

  it('that cannot be opened again is told as what it is', async () => {
    const name = `connection-${(count += 1)}`
    const connection = connect(name)
    await connection.run(async (db) => db.close())
    const newer = await openDB(name, DATABASE_VERSION + 1)
    newer.close()
    const list = createIndexedDbLogStore(connection, sha256).list()
    await expect(list).rejects.toMatchObject({ fault: 'newer' })
  })
})

describe('a database that does not answer', () => {
  it('is given up after two seconds, and what succeeds later is the same entry', async () => {
    const connection = connect()
    const store = createIndexedDbLogStore(connection, sha256)
    await store.append(drawId, entries.slice(0, 3))
    // A transaction that is kept busy holds every later one, as a hanging disk does.
    let hold = true
    const holding = connection.run(async (db: Database) => {
      const tx = db.transaction(['entries', 'draws', 'numbers'], 'readwrite')
      while (hold) await tx.objectStore('numbers').get('x')
      await tx.done
    }, 1e9)
    await settle()
    const write = store.append(drawId, entries.slice(3, 5))
    const outcome = expect(write).rejects.toMatchObject({ fault: 'hanging' })
    await settle()
    clock.advance(WRITE_PATIENCE_ms - 1)
    await settle()
    clock.advance(1)
    await outcome
    hold = false
    await holding
    await store.append(drawId, entries.slice(3, 7))
    await settle()
    expect((await store.load(drawId))?.entries).toEqual(entries.slice(0, 7))
  })
})

it('an upgrade that fails half way leaves the old version whole', async () => {
  const name = `connection-${(count += 1)}`
  const odd = await openDB(name, 1, { upgrade: (db) => void db.createObjectStore('settings') })
  odd.close()
  await expect(createIndexedDbLogStore(connect(name), sha256).list()).rejects.toThrow()
  const after = await openDB(name)
  expect([after.version, [...after.objectStoreNames]]).toEqual([1, ['settings']])
  after.close()
})

describe('another version in another tab', () => {
  it('an older tab in the way is named, and waited for without end', async () => {
    const name = `connection-${(count += 1)}`
    const older = await openDB(name, 1, {
      upgrade: (db) => {
        for (const store of ['entries', 'draws', 'settings']) db.createObjectStore(store)
      },
    })
    const store = createIndexedDbLogStore(connect(name), sha256)
    const first = expect(store.list()).rejects.toMatchObject({ fault: 'blocked' })
    await settle()
    clock.advance(60_000)
    await first
    older.close()
    expect(await store.list()).toEqual([])
  })

  it('an older tab in the way is told of after half a second, not after the patience of a reader', async () => {
    const name = `connection-${(count += 1)}`
    const older = await openDB(name, 1, {
      upgrade: (db) => {
        for (const store of ['entries', 'draws', 'settings']) db.createObjectStore(store)
      },
    })
    const store = createIndexedDbLogStore(connect(name), sha256)
    const faults: unknown[] = []
    const list = store.list().catch((error: unknown) => faults.push(error))
    await settle()
    clock.advance(499)
    await settle()
    expect(faults).toEqual([])
    clock.advance(1)
    await list
    expect(faults).toMatchObject([{ fault: 'blocked' }])
    // Whoever asks again has an answer as soon as the tab is closed.
    const again = store.list()
    older.close()
    expect(await again).toEqual([])
  })

  it('a newer one gets the database at once while nothing runs here', async () => {
    const name = `connection-${(count += 1)}`
    await connect(name).run((db) => db.count('draws'))
    const newer = await openDB(name, DATABASE_VERSION + 1)
    expect(newer.version).toBe(DATABASE_VERSION + 1)
    newer.close()
  })

  it('a newer one waits while a draw runs here, and gets it after', async () => {
    const name = `connection-${(count += 1)}`
    let running = true
    const connection = connect(name, () => !running)
    await connection.run((db) => db.count('draws'))
    let opened = false
    const newer = openDB(name, DATABASE_VERSION + 1).then((db) => {
      opened = true
      db.close()
    })
    await settle()
    await createIndexedDbLogStore(connection, sha256).append(drawId, entries)
    await settle()
    expect(opened).toBe(false)
    running = false
    await connection.run((db) => db.count('draws'))
    await newer
    expect(opened).toBe(true)
  })
})
