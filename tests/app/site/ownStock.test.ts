import { describe, expect, it } from 'vitest'
import { createMemorySettingsStore } from '../../../src/adapters/storage/memory.ts'
import { createOwnStock } from '../../../src/app/site/ownStock.ts'
import type { StockTube } from '../../../src/core/catalogue/catalogue.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { countedDraw } from '../../../src/core/record/countedDraw.ts'
import { sampleLog, sampleOpening } from '../../support/sampleLog.ts'
import { samplePlan } from '../../support/samplePlan.ts'
import { shippedSite } from '../../support/site.ts'

const [t1, t2, t3] = samplePlan().tubes
const lotOf = (tube: typeof t1, count: number): StockTube => ({
  tubeCode: tube?.tubeCode ?? '',
  lot: tube?.lot ?? '',
  expires: '2028-12-31',
  count,
})
const LOTS = [lotOf(t1, 5), lotOf(t2, 1), lotOf(t3, 0)]
const tubes = LOTS.map(({ tubeCode }) => ({ ...shippedSite.catalogue.tubes[0]!, code: tubeCode }))

const KEPT_ms = sampleLog().entries[0]?.at.at_ms ?? 0
/** What a log is counted as. */
const counted = (log: DrawLog) => [countedDraw(log)].flatMap((draw) => draw ?? [])

async function stockOf(store = createMemorySettingsStore()) {
  const stock = createOwnStock(store, tubes)
  await stock.load()
  const counts = (): readonly number[] | undefined => stock.current()?.map(({ count }) => count)
  return { stock, store, counts }
}

describe('the stock of the site', () => {
  it('is none until somebody counts, and is kept over a new start', async () => {
    const { stock, store, counts } = await stockOf()
    expect(counts()).toBeUndefined()
    await stock.keep(LOTS, KEPT_ms)
    expect(counts()).toEqual([5, 1, 0])
    expect((await stockOf(store)).counts()).toEqual([5, 1, 0])
    await stock.forget()
    expect((await stockOf(store)).counts()).toBeUndefined()
  })

  it('is counted down once by a closed draw, however often and by whichever page it is told', async () => {
    const { stock, store, counts } = await stockOf()
    await stock.keep(LOTS, KEPT_ms)
    await Promise.all([
      stock.countDown(counted(sampleLog())),
      stock.countDown(counted(sampleLog())),
    ])
    // Never below nothing: somebody miscounted.
    expect(counts()).toEqual([4, 0, 0])
    const other = await stockOf(store)
    await other.stock.countDown(counted(sampleLog()))
    expect(other.counts()).toEqual([4, 0, 0])
  })

  it('sees what another page counted meanwhile', async () => {
    const here = await stockOf()
    await here.stock.keep(LOTS, KEPT_ms)
    const there = await stockOf(here.store)
    await there.stock.keep([lotOf(t1, 50)], KEPT_ms)
    await here.stock.countDown(counted(sampleLog()))
    expect(here.counts()).toEqual([49])
  })

  it('is left alone by a draw that is open, and by an invented one', async () => {
    const { stock, counts } = await stockOf()
    await stock.keep(LOTS, KEPT_ms)
    await stock.countDown(counted(sampleLog({ without: ({ type }) => type === 'drawClosed' })))
    await stock.countDown(counted(sampleLog({ opening: { invented: true } })))
    expect(counts()).toEqual([5, 1, 0])
  })

  it('loses a tube that was set aside too, and none that was taken back', async () => {
    const { stock, counts } = await stockOf()
    await stock.keep([lotOf(t1, 5), lotOf(t2, 5), lotOf(t3, 5)], KEPT_ms)
    await stock.countDown(
      counted(sampleLog({ add: [[116, { type: 'tubeSwapped', tubeId: 't1', why: 'noVacuum' }]] })),
    )
    expect(counts()).toEqual([3, 4, 4])
  })

  it('loses a set for each needle and a label for each specimen, of the first to expire', async () => {
    const { stock, store, counts } = await stockOf()
    const of = (tubeCode: string, lot: string, expires: string, count: number): StockTube => ({
      ...{ tubeCode, lot, expires, count },
    })
    const { kind, gauge } = sampleOpening().needleSet
    await stock.keep(
      [
        of(`${kind}${gauge}`, 'late', '2029-01-01', 5),
        of(`${kind}${gauge}`, 'soon', '2028-01-01', 1),
        of('label', 'roll', '2099-12-31', 10),
      ],
      KEPT_ms,
    )
    await stock.countDown(counted(sampleLog()))
    // One needle and three tubes, none of them a discard.
    expect(counts()).toEqual([5, 0, 7])
    const at = sampleLog({ opening: { labelsBy: 'laboratory' } })
    await stock.countDown(counted({ ...at, drawId: '20260101-9999' }))
    expect(counts()).toEqual([4, 0, 7])
    expect((await stockOf(store)).counts()).toEqual([4, 0, 7])
  })

  it('counts a draw of another device that was closed since, and none from before the count', async () => {
    const { stock, counts } = await stockOf()
    const draw = { ...sampleLog(), drawId: '20260101-77' }
    const closed_ms = counted(draw)[0]?.closed_ms ?? 0
    await stock.keep(LOTS, closed_ms + 1)
    await stock.countDownOthers(counted(draw))
    expect(counts()).toEqual([5, 1, 0])
    await stock.keep(LOTS, closed_ms)
    expect(stock.mayTake({ drawId: draw.drawId, opened_ms: KEPT_ms })).toBe(true)
    await stock.countDownOthers(counted(draw))
    await stock.countDownOthers(counted(draw))
    expect(counts()).toEqual([4, 0, 0])
    expect(stock.mayTake({ drawId: draw.drawId, opened_ms: KEPT_ms })).toBe(false)
    expect(stock.mayTake({ drawId: 'old', opened_ms: closed_ms - 2 * 86_400_000 })).toBe(false)
  })

  it('knows the draws that were counted before more than their number was kept, and counts no other device’s', async () => {
    const store = createMemorySettingsStore()
    const { drawId } = sampleLog()
    await store.write('stock', JSON.stringify({ lots: LOTS, counted: [drawId] }))
    const { stock, counts } = await stockOf(store)
    await stock.countDown(counted(sampleLog()))
    await stock.countDownOthers(counted({ ...sampleLog(), drawId: '20260101-77' }))
    expect(counts()).toEqual([5, 1, 0])
  })

  it('offers no tube that the catalog does not have', async () => {
    const { stock, counts } = await stockOf()
    await stock.keep(
      [...LOTS, { tubeCode: 'gone', lot: 'X', expires: '2028-01-01', count: 9 }],
      KEPT_ms,
    )
    expect(counts()).toEqual([5, 1, 0])
  })

  it.each([
    '{',
    '[]',
    '{"lots":[{}],"counted":[]}',
    '{"lots":[{"tubeCode":"a","lot":"b","expires":"c","count":-1}],"counted":[]}',
  ])(
    // prettier-ignore
    'is none where what was kept does not read: %s',
    async (json) => {
      const store = createMemorySettingsStore()
      await store.write('stock', json)
      expect((await stockOf(store)).counts()).toBeUndefined()
    },
  )
})
