import { describe, expect, it } from 'vitest'
import { createMemoryDayStore } from '../../../src/adapters/storage/dayStore.ts'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import { createDayBook } from '../../../src/app/day/dayBook.ts'
import type { DayCommand } from '../../../src/core/day/decideDay.ts'
import type { DayStore } from '../../../src/ports/dayStore.ts'
import { logFault } from '../../../src/core/log/fault.ts'
import { StorageError } from '../../../src/ports/storageFault.ts'
import { sampleListed } from '../../support/sampleDay.ts'
import { SAMPLE_START_ms, sha256 } from '../../support/sampleLog.ts'

const settle = (): Promise<void> => new Promise((done) => setImmediate(done))
let boots = 0

function book(dayStore: DayStore, by = 'ada-as') {
  const boot = `boot-${(boots += 1)}`
  const clock = createSimulatedClock({ boot, mono_ms: 0, wall_ms: SAMPLE_START_ms, offset_min: 60 })
  const made = createDayBook({ clock, dayStore, sha256, by: () => by })
  const pass = async (ms: number): Promise<void> => {
    for (let passed = 0; passed < ms; passed += 50) {
      clock.advance(50)
      await settle()
    }
  }
  const standing = (id: string) => made.state().items.get(id)?.standing
  return { ...made, clock, pass, standing }
}

const list = (...ids: string[]): DayCommand => ({
  type: 'listOrders',
  orders: ids.map((id) => sampleListed({ id })),
})
const call = (...orderIds: string[]): DayCommand => ({ type: 'orderCalled', orderIds })
const cancel = (...orderIds: string[]): DayCommand => ({
  type: 'orderCancelled',
  orderIds,
  by: 'Dr. Placeholder',
  why: 'ordered twice',
})

describe('the day book', () => {
  it('keeps what was done, for the next page too', async () => {
    const store = createMemoryDayStore(sha256)
    const first = book(store)
    await first.act(list('a', 'b'), 'touch')
    await first.act(call('a'), 'voice')
    expect((await store.load('2026-11-25')).entries.map(({ by }) => by)).toEqual(
      Array.from({ length: 3 }, () => 'ada-as'),
    )
    const second = book(store)
    expect(await second.read()).toBe(true)
    expect(second.standing('a')).toBe('called')
    expect(second.standing('b')).toBe('waiting')
    expect(await second.read()).toBe(false)
  })

  it('decides again behind what another page wrote first', async () => {
    const store = createMemoryDayStore(sha256)
    const [mine, theirs] = [book(store), book(store, 'bo-bb')]
    await mine.act(list('a', 'b'), 'touch')
    await theirs.read()
    await theirs.act(cancel('a'), 'touch')
    await mine.act(call('b'), 'touch')
    await settle()
    expect(mine.standing('a')).toBe('cancelled')
    expect(mine.standing('b')).toBe('called')
    expect((await store.load('2026-11-25')).fault).toBeUndefined()
  })

  it('tells that what was asked cannot be any more, where another page was first', async () => {
    const store = createMemoryDayStore(sha256)
    const [mine, theirs] = [book(store), book(store, 'bo-bb')]
    const told: string[] = []
    mine.onTurnedDown((refusal) => told.push(refusal))
    await mine.act(list('a'), 'touch')
    await theirs.read()
    await theirs.act(cancel('a'), 'touch')
    expect((await mine.act(call('a'), 'touch')).ok).toBe(true)
    await settle()
    expect(told).toEqual(['ended'])
    expect(mine.standing('a')).toBe('cancelled')
    expect((await store.load('2026-11-25')).entries).toHaveLength(2)
  })

  it('keeps, tells and tries again what a full disk refuses', async () => {
    const memory = createMemoryDayStore(sha256)
    let full = true
    const store: DayStore = {
      ...memory,
      append: (day, entries) =>
        full ? Promise.reject(new StorageError('full', 'x')) : memory.append(day, entries),
    }
    const mine = book(store)
    await mine.act(list('a'), 'touch')
    await mine.act(call('a'), 'touch')
    expect(mine.standing('a')).toBe('called')
    expect(mine.unsaved()).toMatchObject([{ entries: 2, error: { fault: 'full' } }])
    full = false
    await mine.pass(3000)
    expect(mine.unsaved()).toEqual([])
    expect((await memory.load('2026-11-25')).entries).toHaveLength(2)
  })

  it('takes effect while the disk hangs, says so, and writes once what came late', async () => {
    const memory = createMemoryDayStore(sha256)
    const held: (() => void)[] = []
    let hangs = true
    const store: DayStore = {
      ...memory,
      append: (day, entries) =>
        hangs
          ? new Promise((done, fail) =>
              held.push(() => void memory.append(day, entries).then(done, fail)),
            )
          : memory.append(day, entries),
    }
    const mine = book(store)
    const acting = mine.act(list('a'), 'touch')
    await mine.pass(200)
    expect((await acting).ok).toBe(true)
    expect(mine.standing('a')).toBe('waiting')
    await mine.pass(2500)
    expect(mine.unsaved()).toMatchObject([{ error: { fault: 'hanging' } }])
    hangs = false
    held.forEach((write) => write())
    await mine.pass(3000)
    await mine.act(call('a'), 'touch')
    await mine.pass(200)
    expect(mine.unsaved()).toEqual([])
    const { entries, fault } = await memory.load('2026-11-25')
    expect(fault).toBeUndefined()
    expect(entries.map(({ event }) => event.type)).toEqual(['orderListed', 'orderCalled'])
  })

  it('acts that come while one is written follow it, each once', async () => {
    const store = createMemoryDayStore(sha256)
    const mine = book(store)
    await Promise.all([
      mine.act(list('a', 'b', 'c'), 'touch'),
      mine.act(call('a'), 'touch'),
      mine.act(call('b'), 'touch'),
      mine.act(call('c'), 'touch'),
    ])
    await settle()
    const { entries, fault } = await store.load('2026-11-25')
    expect(fault).toBeUndefined()
    expect(entries).toHaveLength(6)
  })

  it('after midnight goes on in the log of the new day, with the orders of the old one', async () => {
    const store = createMemoryDayStore(sha256)
    const mine = book(store)
    await mine.act(list('a'), 'touch')
    mine.clock.advance(24 * 3_600_000)
    await mine.act(call('a'), 'touch')
    expect(mine.standing('a')).toBe('called')
    expect(await store.ends('2026-11-01')).toEqual([
      { day: '2026-11-25', entries: 1 },
      { day: '2026-11-26', entries: 1 },
    ])
  })

  it('by a clock that was a day ahead and is set back still cancels what was listed then', async () => {
    const store = createMemoryDayStore(sha256)
    const mine = book(store)
    mine.clock.setWall(24 * 3_600_000)
    await mine.act(list('a'), 'touch')
    mine.clock.setWall(-24 * 3_600_000)
    await mine.act(cancel('a'), 'touch')
    expect(mine.standing('a')).toBe('cancelled')
    const again = book(store)
    await again.read()
    expect(again.standing('a')).toBe('cancelled')
  })

  it('goes on in a further log where the log of the day is damaged, which says so and hides nothing', async () => {
    const memory = createMemoryDayStore(sha256)
    const first = book(memory)
    await first.act(list('a'), 'touch')
    await first.act(list('b'), 'touch')
    const fault = logFault('earlier', 2)
    let bad = '2026-11-25'
    const store: DayStore = {
      ...memory,
      load: async (day) => {
        const log = await memory.load(day)
        return day === bad ? { ...log, entries: log.entries.slice(0, 1), fault } : log
      },
    }
    const [mine, theirs] = [book(store), book(store, 'bo-bb')]
    await Promise.all([mine.read(), theirs.read()])
    expect(mine.standing('b')).toBeUndefined()
    await Promise.all([mine.act(call('a'), 'touch'), theirs.act(list('c'), 'touch')])
    await mine.pass(3000)
    await theirs.pass(3000)
    expect([...mine.unsaved(), ...theirs.unsaved()]).toEqual([])
    const { entries, fault: none } = await memory.load('2026-11-25.2')
    expect(none).toBeUndefined()
    expect(entries[0]?.event).toEqual({
      ...{ type: 'logContinued', of: '2026-11-25', seq: 2, fault: 'earlier' },
    })
    expect(entries.map(({ event }) => event.type).sort()).toEqual([
      ...['logContinued', 'orderCalled', 'orderListed'],
    ])
    // What is damaged stays as it was, and is told of after a reload too.
    expect((await memory.load('2026-11-25')).entries).toHaveLength(2)
    const again = book(store)
    await again.read()
    expect(again.broken().map(({ day }) => day)).toEqual(['2026-11-25'])
    expect(again.standing('a')).toBe('called')
    expect(await again.read()).toBe(false)
    // The further log may be damaged as well.
    bad = '2026-11-25.2'
    const later = book(store)
    await later.read()
    expect((await later.act(cancel('a'), 'touch')).ok).toBe(true)
    expect(later.unsaved()).toEqual([])
  })

  it('carries orders 31 days and not longer', async () => {
    const store = createMemoryDayStore(sha256)
    const mine = book(store)
    await mine.act(list('a'), 'touch')
    mine.clock.advance(31 * 24 * 3_600_000)
    await mine.read()
    expect(mine.standing('a')).toBe('waiting')
    mine.clock.advance(24 * 3_600_000)
    await mine.read()
    expect(mine.standing('a')).toBeUndefined()
  })

  it('turns down what cannot be, and writes nothing of it', async () => {
    const store = createMemoryDayStore(sha256)
    const mine = book(store)
    expect(await mine.act(call('nobody'), 'touch')).toEqual({ ok: false, faults: ['notListed'] })
    await mine.act(list('a'), 'touch')
    expect(await mine.act(list('a'), 'touch')).toEqual({ ok: false, faults: ['listedAlready'] })
    const noWhy: DayCommand = { type: 'orderCancelled', orderIds: ['a'], by: 'x', why: ' ' }
    expect(await mine.act(noWhy, 'touch')).toEqual({ ok: false, faults: ['whyMissing'] })
    const reopen: DayCommand = { type: 'orderReopened', orderIds: ['a'], why: 'x' }
    expect(await mine.act(reopen, 'touch')).toEqual({ ok: false, faults: ['notEnded'] })
    expect((await store.load('2026-11-25')).entries).toHaveLength(1)
  })

  it('shows nothing that names anybody once the records are locked', async () => {
    const mine = book(createMemoryDayStore(sha256))
    await mine.act(list('a'), 'touch')
    mine.forget()
    expect(mine.state().items.size).toBe(0)
    await mine.read()
    expect(mine.standing('a')).toBe('waiting')
  })
})
