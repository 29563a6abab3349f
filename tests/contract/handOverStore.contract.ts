import { describe, expect, it } from 'vitest'
import type { HandOverRow, Leaving } from '../../src/core/handOver/handOverRow.ts'
import type { HandOverStore } from '../../src/ports/handOverStore.ts'

export const sampleRow = (change: Partial<HandOverRow> = {}): HandOverRow => ({
  key: 'draw/D7-20261125-0004',
  kind: 'draw',
  about: 'D7-20261125-0004',
  mark: '40',
  hash: 'ab12',
  state: 'waiting',
  since_ms: 1000,
  ...change,
})
export const REFUSAL = {
  by: 'server',
  status: 412,
  issues: [{ severity: 'error', code: 'x', text: 'Patient MRN-104 is not there' }],
} as const
export const sampleLeaving = (n: number, change: Partial<Leaving> = {}): Leaving => ({
  id: `000000000000${1000 + n}-000001`,
  at_ms: 1000 + n,
  offset_min: 60,
  kind: 'draw',
  about: 'D7-20261125-0004',
  key: 'draw/D7-20261125-0004',
  hash: 'ab12',
  size_B: 20_000,
  server: 'https://fhir.example/r4',
  answer: 'unanswered',
  ...change,
})

/** What every keeper of the hand-over does. @param again the same one, after the page was loaded anew */
export function handOverStoreContract(
  name: string,
  fresh: () => Promise<HandOverStore>,
  again: (store: HandOverStore) => Promise<HandOverStore> = (store) => Promise.resolve(store),
): void {
  describe(`a keeper of the hand-over: ${name}`, () => {
    it('begins with nothing', async () => {
      const store = await fresh()
      expect([await store.rows(), await store.leavings()]).toEqual([[], []])
    })

    it('keeps a row whole, with what a server said', async () => {
      const store = await fresh()
      expect(await store.swap(0, sampleRow())).toBe(true)
      const refused = sampleRow({ state: 'refused', refusal: REFUSAL })
      expect(await store.swap(1, refused)).toBe(true)
      expect(await (await again(store)).rows()).toEqual([{ row: refused, revision: 2 }])
    })

    it('forgets what a server said with the row that is put in its place', async () => {
      const store = await fresh()
      await store.swap(0, sampleRow({ refusal: REFUSAL }))
      await store.swap(1, sampleRow({ state: 'waiting' }))
      expect(await store.rows()).toEqual([{ row: sampleRow(), revision: 2 }])
    })

    it('lets one of two pages be first', async () => {
      const store = await fresh()
      await store.swap(0, sampleRow())
      expect(await store.swap(1, sampleRow({ state: 'dropped', by: 'R. Ash' }))).toBe(true)
      expect(await store.swap(1, sampleRow({ state: 'handedOver' }))).toBe(false)
      expect(await store.swap(0, sampleRow())).toBe(false)
      expect((await store.rows())[0]?.row).toMatchObject({ state: 'dropped', by: 'R. Ash' })
    })

    it('tells what left, the latest first, each once with its answer, and no more than so many', async () => {
      const store = await fresh()
      for (const n of [1, 2, 3]) await store.note(sampleLeaving(n), 10)
      await store.note(sampleLeaving(2, { answer: 'done', status: 200 }), 10)
      const then = await again(store)
      expect((await then.leavings()).map(({ at_ms, answer }) => [at_ms, answer])).toEqual([
        [1003, 'unanswered'],
        [1002, 'done'],
        [1001, 'unanswered'],
      ])
      await then.note(sampleLeaving(4), 2)
      expect((await then.leavings()).map(({ at_ms }) => at_ms)).toEqual([1004, 1003])
    })
  })
}
