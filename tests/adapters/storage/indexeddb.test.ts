import 'fake-indexeddb/auto'
import { readFileSync } from 'node:fs'
import { openDB } from 'idb'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { createConnection, type Connection } from '../../../src/adapters/storage/connection.ts'
import {
  createIndexedDbLogStore,
  createIndexedDbSettingsStore,
} from '../../../src/adapters/storage/indexeddb.ts'
import { storageErrorOf } from '../../../src/adapters/storage/storageErrors.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import { troubleText } from '../../../src/app/site/storageTexts.ts'
import texts from '../../../src/data/en/storage.json' with { type: 'json' }
import type { ExportFile } from '../../../src/core/log/exportFile.ts'
import type { LogStore } from '../../../src/ports/logStore.ts'
import { logStoreContract } from '../../contract/logStore.contract.ts'
import { sampleLog, sampleOpening, sha256, stampAt } from '../../support/sampleLog.ts'

const clock = createSystemClock('boot')
const open: Connection[] = []
let count = 0
const names = new Map<LogStore, string>()
const freshName = (): string => `test-${(count += 1)}`

function connect(name: string): Connection {
  const connection = createConnection({ clock, name })
  open.push(connection)
  return connection
}

async function storeOn(name: string): Promise<LogStore> {
  const store = createIndexedDbLogStore(connect(name), sha256)
  names.set(store, name)
  return store
}

afterEach(() => {
  open.splice(0).forEach((connection) => connection.close())
})

logStoreContract(
  'IndexedDB',
  () => storeOn(freshName()),
  (store) => storeOn(names.get(store) ?? ''),
)

const { drawId, entries } = sampleLog()

describe('the database', () => {
  it('still has everything after it was closed and opened again', async () => {
    const name = freshName()
    await (await storeOn(name)).append(drawId, entries)
    open.splice(0).forEach((connection) => connection.close())
    expect((await (await storeOn(name)).load(drawId))?.entries).toEqual(entries)
  })

  it('asks for durability before it says that something is written', async () => {
    const connection = connect(freshName())
    const transaction = await connection.run(async (db) => vi.spyOn(db, 'transaction'))
    await createIndexedDbLogStore(connection, sha256).append(drawId, entries)
    expect(transaction.mock.calls[0]?.[2]).toEqual({ durability: 'strict' })
  })

  it('keeps settings', async () => {
    const settings = createIndexedDbSettingsStore(connect(freshName()))
    expect(await settings.read('a')).toBeUndefined()
    await settings.write('a', '1')
    await settings.write('a', '2')
    expect(await settings.read('a')).toBe('2')
  })

  it('changes a setting in one act, however many pages do', async () => {
    const name = freshName()
    const pages = [connect(name), connect(name)].map(createIndexedDbSettingsStore)
    const counting = (json: string | undefined): string => String(Number(json ?? '0') + 1)
    await Promise.all([...pages, ...pages, ...pages].map((page) => page.update('n', counting)))
    expect(await pages[0]?.read('n')).toBe('6')
  })

  it('leaves a setting as it was when its change fails', async () => {
    const settings = createIndexedDbSettingsStore(connect(freshName()))
    await settings.write('a', '1')
    const failing = settings.update('a', () => {
      throw new Error('no')
    })
    await expect(failing).rejects.toThrow()
    expect(await settings.read('a')).toBe('1')
  })

  it('says in words that the storage is full', () => {
    const full = storageErrorOf(new DOMException('quota', 'QuotaExceededError'))
    expect(troubleText(full, texts)).toMatch(/storage of this browser is full/)
  })

  it('says in words that a newer version has been here', async () => {
    const name = freshName()
    const newer = await openDB(name, 99)
    newer.close()
    const error: unknown = await (await storeOn(name)).list().catch((thrown: unknown) => thrown)
    expect(troubleText(error, texts)).toMatch(/newer Stillhand/)
  })

  it('never advises what would lose a draw that is held in memory', () => {
    for (const text of Object.values(texts.faults)) expect(text).not.toMatch(/reload/i)
  })
})

describe('a database of version 1', () => {
  async function version1(name: string, rows: readonly string[]): Promise<void> {
    const db = await openDB(name, 1, {
      upgrade: (old) => {
        for (const store of ['entries', 'draws', 'settings']) old.createObjectStore(store)
      },
    })
    for (const id of rows) {
      const { opened_ms, patientName } = { opened_ms: 1, patientName: `Invented ${id}` }
      await db.put(
        'draws',
        { drawId: id, opened_ms, closed: false, patientName, invented: true },
        id,
      )
    }
    for (const entry of entries) await db.put('entries', entry, [drawId, entry.seq])
    await db.put('settings', '{"volume":0.3}', 'settings')
    db.close()
  }

  it('keeps every draw and setting, and goes on behind the last number', async () => {
    const name = freshName()
    await version1(name, [drawId, 'D7-20261125-0017', 'D7-20261125-Infinity', 'odd'])
    const store = await storeOn(name)
    expect(await store.load(drawId)).toEqual(sampleLog())
    expect(await store.original(drawId)).toBeUndefined()
    expect((await store.list()).map((draw) => draw.patientName)).toContain(`Invented ${drawId}`)
    expect(await store.reserveNumber('D7', '2026-11-25')).toBe(18)
    expect(await createIndexedDbSettingsStore(connect(name)).read('settings')).toContain('0.3')
  })

  it('lets a draw of it go on', async () => {
    const name = freshName()
    await version1(name, [])
    const rest = sampleLog({ add: [[400, { type: 'noteAdded', text: 'x' }]] }).entries
    const store = await storeOn(name)
    await store.append(drawId, rest)
    expect((await store.load(drawId))?.entries).toEqual(rest)
  })
})

describe('a draw stored in an older format', () => {
  const fixture = new URL('../../fixtures/logs/version0.json', import.meta.url)
  const old = (JSON.parse(readFileSync(fixture, 'utf8')) as ExportFile).log

  async function storedOld(change = (rows: readonly unknown[]): readonly unknown[] => rows) {
    const connection = connect(freshName())
    await connection.run(async (db) => {
      const rows = change(old.entries) as typeof old.entries
      for (const row of rows) await db.put('entries', row, [old.drawId, row.seq])
      const head = { opened_ms: 0, closed: false, invented: true, logVersion: 0 }
      await db.put('draws', { ...head, drawId: old.drawId, patientName: 'Alex' }, old.drawId)
    })
    return { connection, store: createIndexedDbLogStore(connection, sha256) }
  }

  it('is brought up when it is read, can be added to, and its first form is kept', async () => {
    const { connection, store } = await storedOld()
    const read = await store.load(old.drawId)
    expect(read?.fault).toBeUndefined()
    expect(read?.version).toBe(1)
    expect(read?.entries).toHaveLength(old.entries.length)
    expect(await store.load(old.drawId)).toEqual(read)
    const kept = await connection.run((db) => db.get('superseded', [old.drawId, 0]))
    expect(kept).toEqual(old.entries)
    const last = read!.entries.at(-1)!
    const more = [{ ...last, seq: last.seq + 1, previous: last.hash, hash: 'b'.repeat(64) }]
    await expect(store.append(old.drawId, more)).resolves.toBeUndefined()
  })

  it('is not mended when its old chain is broken', async () => {
    const { connection, store } = await storedOld((rows) =>
      rows.map((row, i) => (i === 4 ? { ...(row as object), by: 'forger' } : row)),
    )
    const read = await store.load(old.drawId)
    expect(read?.fault).toMatchObject({ kind: 'brokenHash', seq: 5 })
    expect(read?.entries).toHaveLength(4)
    expect(await connection.run((db) => db.getAllKeys('superseded'))).toEqual([])
  })
})

describe('a bad number record', () => {
  it.each([-Infinity, 9007199254740992, 'x' as unknown as number, NaN])('%s', async (bad) => {
    const connection = connect(freshName())
    const store = createIndexedDbLogStore(connection, sha256)
    await store.append(drawId, entries)
    await connection.run((db) => db.put('numbers', bad, 'D7-20261125'))
    expect(await store.reserveNumber('D7', '2026-11-25')).toBe(4)
  })
})

it('gives the opening its row when the first write was given up before it', async () => {
  const store = await storeOn(freshName())
  const opening = sampleOpening()
  expect(opening.drawId).toBe(drawId)
  await store.append(drawId, entries.slice(0, 4))
  expect((await store.list())[0]?.opened_ms).toBe(stampAt(0).at_ms)
})
