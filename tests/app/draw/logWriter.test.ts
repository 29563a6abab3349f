import { beforeEach, describe, expect, it } from 'vitest'
import { createMemoryLogStore } from '../../../src/adapters/storage/memory.ts'
import {
  createSimulatedClock,
  type SimulatedClock,
} from '../../../src/adapters/time/simulatedClock.ts'
import {
  createLogWriter,
  GIVE_UP_ms,
  LOG_FIRST_ms,
  RETRY_ms,
  type LogWriter,
  type Mended,
  type Unsaved,
} from '../../../src/app/draw/logWriter.ts'
import { checkLog } from '../../../src/core/log/checkLog.ts'
import { sealAll } from '../../../src/core/log/seal.ts'
import type { LogEntry, UnsealedEntry } from '../../../src/core/protocol/entry.ts'
import type { DrawEvent } from '../../../src/core/protocol/events.ts'
import { storageFaultOf } from '../../../src/ports/storageFault.ts'
import { troubledStore, type TroubledStore } from '../../support/logStores.ts'
import { sampleLog, SAMPLE_START_ms, sha256 } from '../../support/sampleLog.ts'

const { drawId, entries } = sampleLog()
let clock: SimulatedClock
let store: TroubledStore
let writer: LogWriter
let told: (Unsaved | undefined)[]
let mended: Mended[]

const newWriter = (stored: readonly LogEntry[] = []): LogWriter => {
  const made = createLogWriter(
    { clock, logStore: store, sha256, foreignNote: (from, to) => `foreign ${from} to ${to}` },
    drawId,
    stored,
  )
  made.onUnsaved((unsaved) => told.push(unsaved))
  made.onMended((what) => mended.push(what))
  return made
}
const settle = (): Promise<void> => new Promise((done) => setTimeout(done))
const pass = async (ms: number): Promise<void> => {
  for (let left = ms; left > 0; left -= 50) {
    clock.advance(Math.min(50, left))
    await settle()
  }
}
const stored = async () => (await store.load(drawId))?.entries ?? []
/** One more entry behind others, as a page makes it that has read them. */
function behind(last: LogEntry, event: DrawEvent, late_ms = 0): LogEntry {
  const at = { ...last.at, at_ms: last.at.at_ms + late_ms, wall_ms: last.at.wall_ms + late_ms }
  const bare: UnsealedEntry = { seq: last.seq + 1, at, by: 'c1', source: 'touch', event }
  return sealAll([bare], sha256, last.hash)[0]!
}

beforeEach(() => {
  const start = { wall_ms: SAMPLE_START_ms, mono_ms: 0, boot: 'a', offset_min: 60 }
  clock = createSimulatedClock(start)
  store = troubledStore(createMemoryLogStore(sha256))
  told = []
  mended = []
  writer = newWriter()
})

describe('a store that works', () => {
  it('has the entries before the writer says so', async () => {
    await writer.write(entries.slice(0, 2))
    expect(await stored()).toEqual(entries.slice(0, 2))
    expect(writer.unsaved()).toBeUndefined()
    expect(told).toEqual([])
  })

  it('gets what comes in one moment in order, each once', async () => {
    await Promise.all(entries.map((entry) => writer.write([entry])))
    await settle()
    expect(await stored()).toEqual(entries)
  })
})

describe('a store that refuses', () => {
  it('is tried again after 1, 2, 5 and then every 10 seconds, and nothing is lost', async () => {
    store.trouble = 'full'
    await writer.write(entries.slice(0, 3))
    expect(writer.unsaved()).toMatchObject({ entries: 3, since_ms: SAMPLE_START_ms })
    expect(RETRY_ms).toEqual([1000, 2000, 5000, 10_000])
    const at: number[] = []
    for (let s = 1; s <= 40; s++) {
      const before = store.tries()
      await pass(1000)
      if (store.tries() > before) at.push(s)
    }
    expect(at).toEqual([1, 3, 8, 18, 28, 38])
    store.trouble = undefined
    await pass(10_000)
    expect(await stored()).toEqual(entries.slice(0, 3))
    expect(told.at(-1)).toBeUndefined()
    expect(writer.unsaved()).toBeUndefined()
  })

  it('is tried at once with the next entry, and when told that it may answer', async () => {
    store.trouble = 'full'
    await writer.write(entries.slice(0, 1))
    store.trouble = undefined
    await writer.write(entries.slice(1, 2))
    expect(await stored()).toEqual(entries.slice(0, 2))
    store.trouble = 'closed'
    await writer.write(entries.slice(2, 3))
    store.trouble = undefined
    writer.retryNow()
    await settle()
    expect(await stored()).toEqual(entries.slice(0, 3))
  })
})

describe('a store that never answers', () => {
  beforeEach(() => {
    store.trouble = 'never'
  })

  it('holds a command no longer than may not be felt, and the next ones not at all', async () => {
    let first = false
    void writer.write(entries.slice(0, 1)).then(() => (first = true))
    await pass(LOG_FIRST_ms - 50)
    expect(first).toBe(false)
    await pass(50)
    expect(first).toBe(true)
    await pass(GIVE_UP_ms)
    let second = false
    void writer.write(entries.slice(1, 2)).then(() => (second = true))
    await settle()
    expect(second).toBe(true)
  })

  it('is told as not saved within two seconds', async () => {
    void writer.write(entries.slice(0, 2))
    await pass(GIVE_UP_ms)
    expect(storageFaultOf(told.at(-1)?.error)).toBe('hanging')
    expect(told.at(-1)?.entries).toBe(2)
  })

  it('may answer late: nothing is doubled, nothing is missing', async () => {
    void writer.write(entries.slice(0, 2))
    await pass(3000)
    void writer.write(entries.slice(2, 5))
    await pass(3000)
    store.trouble = undefined
    await store.letThrough()
    await pass(20_000)
    expect(await stored()).toEqual(entries.slice(0, 5))
    expect(writer.unsaved()).toBeUndefined()
    expect(mended).toEqual([])
  })

  it('may answer after the same entries were written by a later attempt', async () => {
    void writer.write(entries.slice(0, 2))
    await pass(GIVE_UP_ms)
    store.trouble = undefined
    await writer.write(entries.slice(2, 4))
    await settle()
    await store.letThrough()
    expect(await stored()).toEqual(entries.slice(0, 4))
  })
})

describe('another page writes into the draw', () => {
  const ours = entries.slice(0, 5)
  const last = ours.at(-1)!
  const foreign = behind(last, { type: 'noteAdded', text: 'theirs' }, 90_000)

  beforeEach(async () => {
    await store.append(drawId, ours)
    writer = newWriter(ours)
    await store.append(drawId, [foreign])
  })

  it('our entries go behind theirs, with a note and their own clock readings', async () => {
    const mine = behind(last, { type: 'suppliesChecked' }, 1000)
    await writer.write([mine])
    const log = await store.load(drawId)
    expect(checkLog(log, sha256)).toMatchObject({ ok: true })
    const [note, again] = log!.entries.slice(6)
    expect(log?.entries[5]).toEqual(foreign)
    expect(note).toMatchObject({
      source: 'app',
      event: { type: 'noteAdded', text: 'foreign 6 to 6' },
    })
    expect(again?.event).toEqual(mine.event)
    expect(again?.at).toEqual({ ...mine.at, at_ms: foreign.at.at_ms })
    expect(mended).toEqual([{ entries: log!.entries, foreign: 1 }])
    expect(writer.log().entries).toEqual(log!.entries)
  })

  it('an entry that takes one of ours back still does', async () => {
    const mine = behind(last, { type: 'suppliesChecked' }, 1000)
    const undone = behind(mine, { type: 'entryUndone', seq: mine.seq }, 1000)
    const older = behind(undone, { type: 'entryUndone', seq: 4 }, 1000)
    await writer.write([mine, undone, older])
    const log = (await store.load(drawId))!.entries
    const again = log.findIndex(({ event }) => event.type === 'suppliesChecked') + 1
    expect(log[again]?.event).toEqual({ type: 'entryUndone', seq: again })
    expect(log[again + 1]?.event).toEqual({ type: 'entryUndone', seq: 4 })
  })

  it('goes on with the next entries as if nothing had been', async () => {
    await writer.write([behind(last, { type: 'suppliesChecked' })])
    const next = behind(writer.log().entries.at(-1)!, { type: 'handsReady' })
    await writer.write([next])
    expect((await stored()).at(-1)).toEqual(next)
    expect(mended).toHaveLength(1)
  })

  it('what was said meanwhile and waits is not forgotten', async () => {
    store.trouble = 'full'
    const one = behind(last, { type: 'suppliesChecked' })
    const two = behind(one, { type: 'handsReady' })
    await writer.write([one])
    await writer.write([two])
    store.trouble = undefined
    await pass(3000)
    expect((await stored()).map(({ event }) => event.type).slice(5)).toEqual([
      'noteAdded',
      'noteAdded',
      'suppliesChecked',
      'handsReady',
    ])
  })

  it('reads what others added when asked', async () => {
    expect((await writer.readAgain())?.entries).toEqual([...ours, foreign])
    expect(mended).toEqual([{ entries: [...ours, foreign], foreign: 1 }])
  })
})

it('a store that has lost the draw gets all of it again', async () => {
  await writer.write(entries.slice(0, 4))
  const emptied = troubledStore(createMemoryLogStore(sha256))
  let cleared = 0
  writer.onCleared(() => cleared++)
  store.append = (id, added) => emptied.append(id, added)
  store.load = (id) => emptied.load(id)
  await writer.write(entries.slice(4, 6))
  expect((await emptied.load(drawId))?.entries).toEqual(entries.slice(0, 6))
  expect(mended).toEqual([])
  expect(cleared).toBe(1)
})

it('never goes on behind a chain that is broken', async () => {
  const forged = entries.slice(0, 5).map((e) => (e.seq === 3 ? { ...e, by: 'c9' } : e))
  const more = behind(forged.at(-1)!, { type: 'noteAdded', text: 'theirs' })
  await store.append(drawId, [...forged, more])
  writer = newWriter(entries.slice(0, 5))
  await writer.write([behind(entries[4]!, { type: 'suppliesChecked' })])
  expect(storageFaultOf(writer.unsaved()?.error)).toBe('damaged')
  expect(await stored()).toHaveLength(6)
})
