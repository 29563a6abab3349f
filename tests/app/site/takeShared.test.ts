import { describe, expect, it } from 'vitest'
import { createMemorySettingsStore } from '../../../src/adapters/storage/memory.ts'
import {
  keepSharedSite,
  readSharedSite,
  type SharedKind,
} from '../../../src/app/hub/setup/sharedSite.ts'
import { readSiteBetweenDraws } from '../../../src/app/site/takeShared.ts'
import { shippedSite } from '../../support/site.ts'

const { policy } = shippedSite
const STRICTER = '{"limits":{"bandLimit_s":{"value":58,"source":"the site"}}}'

async function given(texts: Partial<Record<SharedKind, string>>) {
  const store = createMemorySettingsStore()
  await keepSharedSite(store, {
    clinic: 'c1',
    parts: Object.entries(texts).map(([what, waiting]) => ({
      ...{ what: what as SharedKind, edition: 3, by: 'D-1', waiting },
    })),
  })
  const start = (isDrawing = false) =>
    readSiteBetweenDraws(shippedSite, store, () => Promise.resolve(isDrawing))
  const waiting = async () =>
    (await readSharedSite(store))?.parts.flatMap((part) => part.waiting ?? [])
  return { store, start, waiting }
}

const drawn = (drawId: string, closed_ms: number) => ({
  ...{ drawId, closed_ms },
  used: [{ code: 'edta4', lot: 'A' }],
})
const stockOf = (count: number, counted: readonly unknown[], since_ms = 1000): string =>
  JSON.stringify({
    lots: [{ tubeCode: 'edta4', lot: 'A', expires: '2028-01-01', count }],
    ...{ since_ms, counted },
  })

describe('what a desk gave', () => {
  it('is in use from the next start on', async () => {
    const { start, waiting, store } = await given({ policy: STRICTER })
    const { value, faults } = await start()
    expect(faults).toEqual([])
    expect(value.policy).not.toEqual(policy)
    expect(await waiting()).toEqual([])
    expect(await store.read('policy')).toBe(STRICTER)
    expect((await start()).value.policy).toEqual(value.policy)
  })

  it('is not while a draw is under way, and is after it', async () => {
    const { start, waiting } = await given({ policy: STRICTER })
    expect((await start(true)).value.policy).toEqual(policy)
    expect(await waiting()).toEqual([STRICTER])
    expect((await start()).value.policy).not.toEqual(policy)
  })

  it.each([
    ['no JSON', { policy: STRICTER, catalogue: '{' }],
    ['another form', { policy: '{"limits":{"bandLimit_s":"soon"}}' }],
    ['no stock', { policy: STRICTER, stock: '{"lots":1}' }],
  ])('is left whole where a part is %s, and said so', async (_, texts) => {
    const { start, waiting, store } = await given(texts)
    const { value, faults } = await start()
    expect(value.policy).toEqual(policy)
    expect(faults.at(-1)).toMatch(/cannot be used here/)
    expect(await store.read('policy')).toBeUndefined()
    expect(await waiting()).toHaveLength(Object.keys(texts).length)
  })

  it('may be nothing: what is shipped is in use again', async () => {
    const { start, store } = await given({ policy: '' })
    await store.write('policy', STRICTER)
    expect((await start()).value.policy).toEqual(policy)
  })

  it('is a stock without what was drawn here since, each draw once, and none from before their count', async () => {
    const theirs = stockOf(10, [drawn('both', 1500)])
    const { start, store } = await given({ stock: theirs })
    const ours = [drawn('before', 500), drawn('both', 1500), drawn('ours', 2000)]
    await store.write('stock', stockOf(3, ours))
    await start()
    const { lots, counted } = JSON.parse((await store.read('stock')) ?? '') as {
      lots: { count: number }[]
      counted: { drawId: string }[]
    }
    expect(lots[0]?.count).toBe(9)
    expect(counted.map(({ drawId }) => drawId)).toEqual(['both', 'ours'])
  })
})
