import { describe, expect, it } from 'vitest'
import { createMemoryLogStore } from '../../../src/adapters/storage/memory.ts'
import { figuresCsv } from '../../../src/app/figures/figuresCsv.ts'
import { shownFigures } from '../../../src/app/figures/shownFigures.ts'
import figureTexts from '../../../src/data/en/figures.json' with { type: 'json' }
import type { DrawOpened } from '../../../src/core/protocol/events.ts'
import type { LogStore } from '../../../src/ports/logStore.ts'
import { appRig } from '../../support/appRig.ts'
import {
  logOf,
  sampleOpening,
  SAMPLE_START_ms,
  sha256,
  straightLines,
} from '../../support/sampleLog.ts'

const TODAY = '2026-11-25'
const DAY_ms = 86_400_000

/** A closed draw, so many days before the day of the rig. */
const drawOf = (n: number, change: Partial<DrawOpened> = {}, daysAgo = 0) => {
  const drawId = `D7-20261125-${String(n).padStart(4, '0')}`
  return logOf(
    straightLines(sampleOpening({ drawId, ...change })),
    SAMPLE_START_ms - daysAgo * DAY_ms,
  )
}

async function rigWith(logs: readonly ReturnType<typeof drawOf>[], change: Partial<LogStore> = {}) {
  const logStore = createMemoryLogStore(sha256)
  for (const { drawId, entries } of logs) await logStore.append(drawId, entries)
  const rig = appRig({ logStore: { ...logStore, ...change } })
  await rig.app.start()
  const shown = (isPractice = false) =>
    shownFigures(rig.state().figures, rig.state().draws, { span: 'days', today: TODAY, isPractice })
  return { ...rig, logStore, shown }
}

describe('reading the records that figures are made of', () => {
  it('counts closed draws of patients, and keeps practice apart', async () => {
    const rig = await rigWith([drawOf(1), drawOf(2, { invented: true }), drawOf(3, {}, 2)])
    await rig.actions.figures.read(0)
    expect(rig.shown().draws).toBe(2)
    expect(rig.shown(true).draws).toBe(1)
    expect(rig.state().figures.reading).toBeUndefined()
  })

  it('reads no draw from before the span', async () => {
    const loaded: string[] = []
    const store = createMemoryLogStore(sha256)
    const old = drawOf(1, {}, 40)
    for (const { drawId, entries } of [old, drawOf(2)]) await store.append(drawId, entries)
    const rig = appRig({
      logStore: { ...store, load: (id) => (loaded.push(id), store.load(id)) },
    })
    await rig.app.start()
    loaded.length = 0
    await rig.actions.figures.read(SAMPLE_START_ms - 31 * DAY_ms)
    expect(loaded).toEqual(['D7-20261125-0002'])
  })

  it('leaves a broken record out and names it', async () => {
    const [good, broken] = [drawOf(1), drawOf(2)]
    const store = createMemoryLogStore(sha256)
    const rig = await rigWith([good, broken], {
      load: async (id) => {
        if (id !== broken.drawId) return logById(id)
        return { ...broken, fault: { seq: 3, code: 'chain' } as never }
      },
    })
    async function logById(id: string) {
      return id === good.drawId ? good : store.load(id)
    }
    await rig.actions.figures.read(0)
    expect(rig.shown().draws).toBe(1)
    expect(rig.shown().broken).toEqual([broken.drawId])
  })

  it('says of a record that cannot be read that it is left out', async () => {
    const rig = await rigWith([drawOf(1)], { load: () => Promise.reject(new Error('disk')) })
    await rig.actions.figures.read(0)
    expect(rig.shown().unread).toEqual(['D7-20261125-0001'])
    expect(rig.shown().draws).toBe(0)
  })

  it('shrinks when a record is erased, and says so', async () => {
    const rig = await rigWith([drawOf(1), drawOf(2)])
    await rig.actions.figures.read(0)
    await rig.actions.eraseRecord('D7-20261125-0002')
    expect(rig.shown().draws).toBe(1)
    expect(rig.shown().erased).toBe(1)
  })

  it('measures a record once while it stays the same', async () => {
    const rig = await rigWith([drawOf(1)])
    await rig.actions.figures.read(0)
    const first = rig.state().figures.read.get('D7-20261125-0001')
    await rig.actions.figures.read(0)
    expect(rig.state().figures.read.get('D7-20261125-0001')).toBe(first)
    await rig.actions.addAddendum('D7-20261125-0001', 'Seen again.', 'Asked for')
    await rig.actions.figures.read(0)
    expect(rig.state().figures.read.get('D7-20261125-0001')).not.toBe(first)
  })

  it('tells how far it is, a piece at a time', async () => {
    const rig = await rigWith(Array.from({ length: 45 }, (_, i) => drawOf(i + 1)))
    const told: number[] = []
    rig.app.store.subscribe(({ figures }) => {
      if (figures.reading) told.push(figures.reading.done)
    })
    await rig.actions.figures.read(0)
    expect([...new Set(told)]).toEqual([0, 20, 40])
    expect(rig.shown().draws).toBe(45)
  })

  it('keeps nothing of it once the records are locked, and reads nothing while they are', async () => {
    const rig = await rigWith([drawOf(1)])
    await rig.actions.figures.read(0)
    await rig.actions.setPin('482913')
    rig.actions.lockNow()
    await rig.settle()
    expect(rig.state().lock.state).toBe('locked')
    expect(rig.state().figures.read.size).toBe(0)
    await rig.actions.figures.read(0)
    expect(rig.state().figures.read.size).toBe(0)
  })

  it('puts a draw into the local day of where it was drawn', async () => {
    // 23:30 on the 24th at UTC-05:00 is the 25th at UTC.
    const log = drawOf(1)
    const start_ms = Date.UTC(2026, 10, 25, 4, 30)
    const moved = {
      ...log,
      entries: log.entries.map((entry) => {
        const by_ms = start_ms - SAMPLE_START_ms
        const { at } = entry
        return {
          ...entry,
          at: { ...at, at_ms: at.at_ms + by_ms, wall_ms: at.wall_ms + by_ms, offset_min: -300 },
        }
      }),
    }
    const rig = await rigWith([log], { load: () => Promise.resolve(moved) })
    await rig.actions.figures.read(0)
    const [band] = rig.shown().times
    expect(band?.points.filter(({ n }) => n > 0).map(({ from }) => from)).toEqual(['2026-11-24'])
  })
})

describe('the figures as a table of their own', () => {
  it('holds every point and nothing of a patient', async () => {
    const rig = await rigWith([drawOf(1)])
    await rig.actions.figures.read(0)
    const csv = figuresCsv(rig.shown(), figureTexts.csv, false)
    const [head, ...rows] = csv.trim().split('\n')
    expect(head).toBe('figure,practice,from,count,of,share,lower_limit,upper_limit,median_s')
    expect(rows).toHaveLength(31 * 10)
    expect(rows).toContain('band,no,2026-11-25,,1,,,,43')
    for (const word of ['Alex', 'MRN', 'ORD-77']) expect(csv).not.toContain(word)
  })

  it('says of practice that it is practice, and defuses words that a spreadsheet would run', () => {
    const csv = figuresCsv(
      { times: [], proportions: [] },
      { ...figureTexts.csv, figure: '=1+1' },
      true,
    )
    expect(csv.startsWith(`"'=1+1",`)).toBe(true)
  })
})
