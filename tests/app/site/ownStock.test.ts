import { describe, expect, it } from 'vitest'
import { createMemorySettingsStore } from '../../../src/adapters/storage/memory.ts'
import { createOwnStock } from '../../../src/app/site/ownStock.ts'
import type { StockTube } from '../../../src/core/catalogue/catalogue.ts'
import { sampleLog } from '../../support/sampleLog.ts'
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
    await stock.keep(LOTS)
    expect(counts()).toEqual([5, 1, 0])
    expect((await stockOf(store)).counts()).toEqual([5, 1, 0])
    await stock.forget()
    expect((await stockOf(store)).counts()).toBeUndefined()
  })

  it('is counted down once by a closed draw, however often and by whichever page it is told', async () => {
    const { stock, store, counts } = await stockOf()
    await stock.keep(LOTS)
    await Promise.all([stock.countDown(sampleLog()), stock.countDown(sampleLog())])
    // Never below nothing: somebody miscounted.
    expect(counts()).toEqual([4, 0, 0])
    const other = await stockOf(store)
    await other.stock.countDown(sampleLog())
    expect(other.counts()).toEqual([4, 0, 0])
  })

  it('sees what another page counted meanwhile', async () => {
    const here = await stockOf()
    await here.stock.keep(LOTS)
    const there = await stockOf(here.store)
    await there.stock.keep([lotOf(t1, 50)])
    await here.stock.countDown(sampleLog())
    expect(here.counts()).toEqual([49])
  })

  it('is left alone by a draw that is open, and by an invented one', async () => {
    const { stock, counts } = await stockOf()
    await stock.keep(LOTS)
    await stock.countDown(sampleLog({ without: ({ type }) => type === 'drawClosed' }))
    await stock.countDown(sampleLog({ opening: { invented: true } }))
    expect(counts()).toEqual([5, 1, 0])
  })

  it('loses a tube that was set aside too, and none that was taken back', async () => {
    const { stock, counts } = await stockOf()
    await stock.keep([lotOf(t1, 5), lotOf(t2, 5), lotOf(t3, 5)])
    await stock.countDown(
      sampleLog({ add: [[116, { type: 'tubeSwapped', tubeId: 't1', why: 'noVacuum' }]] }),
    )
    expect(counts()).toEqual([3, 4, 4])
  })

  it('offers no tube that the catalog does not have', async () => {
    const { stock, counts } = await stockOf()
    await stock.keep([...LOTS, { tubeCode: 'gone', lot: 'X', expires: '2028-01-01', count: 9 }])
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
