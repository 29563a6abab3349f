import { describe, expect, it } from 'vitest'
import type { HubEntry } from '../../src/core/hub/hubEntry.ts'
import { HUB_START } from '../../src/core/hub/hubEntry.ts'
import type { HubStore } from '../../src/ports/hubStore.ts'

export const hubEntry = (sequence: number, change: Partial<HubEntry> = {}): HubEntry => ({
  sequence,
  log: 'draw-A1-20261127-0001',
  device: 'chair-1',
  kind: 'entry',
  behind: sequence - 1,
  at_ms: sequence * 1000,
  bytes: new Uint8Array([sequence, 255, 0]),
  ...change,
})

/** What every keeper of the hub's entries does. @param again the same one, after the page was loaded anew */
export function hubStoreContract(
  name: string,
  fresh: () => Promise<HubStore>,
  again: (store: HubStore) => Promise<HubStore> = (store) => Promise.resolve(store),
): void {
  describe(`a keeper of what the hub holds: ${name}`, () => {
    const sequences = async (store: HubStore): Promise<readonly (readonly number[])[]> =>
      (await store.entries()).map(({ past, entry }) => [past, entry.sequence])

    it('begins before everything', async () => {
      const store = await fresh()
      expect(await store.read()).toEqual({ past: 0, position: HUB_START })
      expect(await store.entries()).toEqual([])
      expect(await store.notes()).toEqual([])
    })

    it('keeps entries with their bytes and how far it was read', async () => {
      const store = await fresh()
      await store.add(0, [hubEntry(1), hubEntry(4)])
      const then = await again(store)
      expect(await then.entries()).toEqual([1, 4].map((n) => ({ past: 0, entry: hubEntry(n) })))
      expect(await then.read()).toEqual({ past: 0, position: { sequence: 4, at_ms: 4000 } })
    })

    it('keeps an entry once, and never goes back in what it read', async () => {
      const store = await fresh()
      await store.add(0, [hubEntry(1), hubEntry(2), hubEntry(3)])
      await store.add(0, [hubEntry(1), hubEntry(2)])
      await store.add(0, [])
      expect(await sequences(store)).toEqual([
        [0, 1],
        [0, 2],
        [0, 3],
      ])
      expect((await store.read()).position.sequence).toBe(3)
    })

    it('begins anew for a hub with another past, and keeps what it had', async () => {
      const store = await fresh()
      await store.add(0, [hubEntry(1), hubEntry(2)])
      await store.beginPast(1)
      expect(await store.read()).toEqual({ past: 1, position: HUB_START })
      await store.add(1, [hubEntry(1, { at_ms: 5 })])
      // What comes late from the page before it knew changes nothing.
      await store.add(0, [hubEntry(3)])
      await store.beginPast(1)
      const then = await again(store)
      expect(await sequences(then)).toEqual([
        [0, 1],
        [0, 2],
        [0, 3],
        [1, 1],
      ])
      expect(await then.read()).toEqual({ past: 1, position: { sequence: 1, at_ms: 5 } })
    })

    it('forgets what is old and not how far it was read', async () => {
      const store = await fresh()
      await store.add(0, [hubEntry(1), hubEntry(2), hubEntry(3)])
      await store.eraseBefore(2500)
      expect(await sequences(store)).toEqual([[0, 3]])
      await store.eraseBefore(9999)
      expect((await store.read()).position.sequence).toBe(3)
    })

    it('keeps that a signature was looked at', async () => {
      const store = await fresh()
      await store.add(0, [{ ...hubEntry(1), isVerified: true }, hubEntry(2)])
      const kept = await (await again(store)).entries()
      expect(kept.map(({ entry }) => entry.isVerified)).toEqual([true, undefined])
    })

    it('forgets one log whole, in every past, and not how far it was read', async () => {
      const store = await fresh()
      const other = hubEntry(3, { log: 'draw-B2-20261127-0001' })
      await store.add(0, [hubEntry(1), hubEntry(2), other])
      await store.beginPast(1)
      await store.add(1, [hubEntry(1)])
      await store.eraseLog(hubEntry(1).log)
      const then = await again(store)
      expect(await then.entries()).toEqual([{ past: 0, entry: other }])
      expect(await then.read()).toEqual({ past: 1, position: { sequence: 1, at_ms: 1000 } })
    })

    it('takes nothing more of a log that was erased, counts it as read, and notes it for good', async () => {
      const store = await fresh()
      const { log } = hubEntry(1)
      await store.eraseLog(log)
      await store.note({ log, confirmed: 4, hasTaken: true })
      const then = await again(store)
      await then.add(0, [hubEntry(1), hubEntry(2)])
      expect(await then.entries()).toEqual([])
      expect(await then.read()).toEqual({ past: 0, position: { sequence: 2, at_ms: 2000 } })
      expect(await then.notes()).toEqual([{ log, confirmed: 4, hasTaken: true, isErased: true }])
      await then.clear()
      await then.add(0, [hubEntry(1)])
      expect(await then.entries()).toHaveLength(1)
    })

    it('keeps one note a log, the last', async () => {
      const store = await fresh()
      await store.note({ log: 'b', confirmed: 1, hasTaken: false })
      await store.note({ log: 'a', confirmed: 2, hasTaken: true })
      await store.note({ log: 'b', confirmed: 7, hasTaken: false })
      expect(await (await again(store)).notes()).toEqual([
        { log: 'a', confirmed: 2, hasTaken: true },
        { log: 'b', confirmed: 7, hasTaken: false },
      ])
    })

    it('keeps nothing once the clinic is left', async () => {
      const store = await fresh()
      await store.add(3, [hubEntry(1)])
      await store.note({ log: 'b', confirmed: 1, hasTaken: false })
      await store.clear()
      expect(await store.read()).toEqual({ past: 0, position: HUB_START })
      expect([await store.entries(), await store.notes()]).toEqual([[], []])
    })
  })
}
