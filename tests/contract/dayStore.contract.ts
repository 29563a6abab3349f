import { describe, expect, it } from 'vitest'
import type { DayEvent } from '../../src/core/day/dayEvents.ts'
import type { DayStore } from '../../src/ports/dayStore.ts'
import { dayEntries, sampleListed } from '../support/sampleDay.ts'

const EVENTS: readonly DayEvent[] = [
  { type: 'orderListed', order: sampleListed() },
  { type: 'orderListed', order: sampleListed({ id: 'KM47-20261125-L2' }) },
  { type: 'orderCalled', orderIds: ['KM47-20261125-L1'] },
  { type: 'orderNotFound', orderIds: ['KM47-20261125-L1'] },
]

/** What every store of days must do. `reopened` gives another handle on the same data. */
export function dayStoreContract(
  name: string,
  fresh: () => Promise<DayStore>,
  reopened?: (store: DayStore) => Promise<DayStore>,
): void {
  describe(`${name} as a store of days`, () => {
    const day = '2026-11-25'
    const entries = dayEntries(EVENTS)

    it('gives back what was appended, in order, whole', async () => {
      const store = await fresh()
      await store.append(day, entries.slice(0, 1))
      await store.append(day, entries.slice(1))
      expect(await store.load(day)).toEqual({ day, entries })
      if (reopened) expect(await (await reopened(store)).load(day)).toEqual({ day, entries })
    })

    it('has an empty log for a day of which nothing is known', async () => {
      const store = await fresh()
      expect(await store.load(day)).toEqual({ day, entries: [] })
      expect(await store.ends('2026-01-01')).toEqual([])
      await store.append(day, [])
      expect(await store.ends('2026-01-01')).toEqual([])
    })

    it('takes an entry again that is there with the same hash, and writes it once', async () => {
      const store = await fresh()
      await store.append(day, entries.slice(0, 3))
      await store.append(day, entries.slice(1, 4))
      expect((await store.load(day)).entries).toEqual(entries)
    })

    it('refuses a gap, and another entry in the place of one, and keeps what it had', async () => {
      const store = await fresh()
      await store.append(day, entries.slice(0, 2))
      await expect(store.append(day, entries.slice(3))).rejects.toMatchObject({ fault: 'gap' })
      const other = dayEntries(EVENTS, 'somebody-else')
      await expect(store.append(day, other.slice(1, 3))).rejects.toMatchObject({ fault: 'movedOn' })
      expect((await store.load(day)).entries).toEqual(entries.slice(0, 2))
    })

    it('keeps days apart, tells how far each has come, and takes old ones away', async () => {
      const store = await fresh()
      await store.append('2026-11-26', entries.slice(0, 1))
      await store.append('2026-10-01', entries.slice(0, 2))
      await store.append(day, entries)
      expect(await store.ends('2026-11-01')).toEqual([
        { day, entries: 4 },
        { day: '2026-11-26', entries: 1 },
      ])
      await store.eraseBefore(day)
      expect(await store.ends('2026-01-01')).toHaveLength(2)
      expect(await store.load('2026-10-01')).toEqual({ day: '2026-10-01', entries: [] })
    })
  })
}
