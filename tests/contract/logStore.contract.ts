import { describe, expect, it } from 'vitest'
import type { LogStore } from '../../src/ports/logStore.ts'
import { logOf, sampleLog, sampleOpening, straightLines } from '../support/sampleLog.ts'

/** What every log store must do. `fresh` gives an empty one; `reopened` another handle on the same data, if there is. */
export function logStoreContract(
  name: string,
  fresh: () => Promise<LogStore>,
  reopened?: (store: LogStore) => Promise<LogStore>,
): void {
  describe(`${name} as a log store`, () => {
    const log = sampleLog()
    const { drawId, entries } = log

    it('gives back what was appended, in order, whole', async () => {
      const store = await fresh()
      await store.append(drawId, entries.slice(0, 1))
      await store.append(drawId, entries.slice(1, 5))
      await store.append(drawId, entries.slice(5))
      expect(await store.load(drawId)).toEqual(log)
    })

    it('knows nothing of a draw it was not given', async () => {
      const store = await fresh()
      expect(await store.load('nobody')).toBeUndefined()
      expect(await store.list()).toEqual([])
    })

    it('refuses a gap and keeps what it had', async () => {
      const store = await fresh()
      await store.append(drawId, entries.slice(0, 3))
      await expect(store.append(drawId, entries.slice(4, 6))).rejects.toThrow(/Entry 4 is missing/)
      expect((await store.load(drawId))?.entries).toHaveLength(3)
    })

    it('refuses a repeat, also of an entry that differs, and never overwrites', async () => {
      const store = await fresh()
      await store.append(drawId, entries.slice(0, 3))
      await expect(store.append(drawId, entries.slice(2, 3))).rejects.toThrow(/already written/)
      const other = { ...entries[2]!, by: 'somebody else' }
      await expect(store.append(drawId, [other])).rejects.toThrow(/already written/)
      expect((await store.load(drawId))?.entries[2]).toEqual(entries[2])
    })

    it('refuses an entry that does not hang on the one before it', async () => {
      const store = await fresh()
      await store.append(drawId, entries.slice(0, 3))
      const loose = { ...entries[3]!, previous: 'f'.repeat(64) }
      await expect(store.append(drawId, [loose])).rejects.toThrow(/does not follow/)
    })

    it('writes all of a batch or nothing', async () => {
      const store = await fresh()
      await store.append(drawId, entries.slice(0, 3))
      await expect(store.append(drawId, [entries[3]!, entries[5]!])).rejects.toThrow()
      expect((await store.load(drawId))?.entries).toHaveLength(3)
    })

    it('lets one of two writers of the same number win', async () => {
      const first = await fresh()
      const second = reopened ? await reopened(first) : first
      await first.append(drawId, entries.slice(0, 3))
      const outcomes = await Promise.allSettled([
        first.append(drawId, entries.slice(3, 4)),
        second.append(drawId, entries.slice(3, 4)),
      ])
      expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
      expect((await second.load(drawId))?.entries).toHaveLength(4)
    })

    it('lists draws newest first, with name, opening and whether they are closed', async () => {
      const store = await fresh()
      const later = logOf(
        straightLines(sampleOpening({ drawId: 'D7-20261126-0001', invented: true })).slice(0, 5),
        entries[0]!.at.at_ms + 86_400_000,
      )
      await store.append(drawId, entries)
      await store.append(later.drawId, later.entries)
      expect(await store.list()).toEqual([
        {
          drawId: later.drawId,
          opened_ms: later.entries[0]!.at.at_ms,
          closed: false,
          patientName: 'Alex Invented',
          invented: true,
        },
        {
          drawId,
          opened_ms: entries[0]!.at.at_ms,
          closed: true,
          patientName: 'Alex Invented',
          invented: false,
        },
      ])
    })

    it('keeps draws with similar numbers apart', async () => {
      const store = await fresh()
      const alike = logOf(straightLines(sampleOpening({ drawId: `${drawId}0` })))
      await store.append(drawId, entries.slice(0, 2))
      await store.append(alike.drawId, alike.entries)
      expect((await store.load(drawId))?.entries).toHaveLength(2)
    })

    it('adopts a whole foreign log once', async () => {
      const store = await fresh()
      await store.adopt(log, 'as it came')
      expect(await store.load(drawId)).toEqual(log)
      await expect(store.adopt(log, 'again')).rejects.toThrow(/already on this device/)
    })

    it('keeps the text that a log was brought in as, whatever is added later', async () => {
      const store = await fresh()
      await store.adopt({ ...log, entries: entries.slice(0, 3) }, 'as it came')
      await store.append(drawId, entries.slice(3))
      const again = reopened ? await reopened(store) : store
      expect(await again.original(drawId)).toBe('as it came')
      expect((await again.load(drawId))?.entries).toHaveLength(entries.length)
    })

    it('keeps neither log nor text of a log that it refuses', async () => {
      const store = await fresh()
      const gap = { ...log, entries: entries.slice(1) }
      await expect(store.adopt(gap, 'as it came')).rejects.toThrow(/Entry 1 is missing/)
      expect(await store.original(drawId)).toBeUndefined()
      expect(await store.list()).toEqual([])
    })

    it('has no such text for a draw that was recorded here', async () => {
      const store = await fresh()
      await store.append(drawId, entries)
      expect(await store.original(drawId)).toBeUndefined()
    })

    it('is not changed through what it gave out', async () => {
      const store = await fresh()
      await store.append(drawId, entries)
      const given = await store.load(drawId)
      ;(given!.entries as unknown as { by: string }[])[0]!.by = 'changed'
      expect((await store.load(drawId))?.entries[0]?.by).toBe(entries[0]!.by)
    })
  })
}
