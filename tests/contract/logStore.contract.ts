import { describe, expect, it } from 'vitest'
import { sealAll } from '../../src/core/log/seal.ts'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import type { LogStore } from '../../src/ports/logStore.ts'
import { logOf, sampleLog, sampleOpening, sha256, straightLines } from '../support/sampleLog.ts'

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

    it('makes no draw of nothing', async () => {
      const store = await fresh()
      await store.append(drawId, [])
      expect(await store.list()).toEqual([])
      expect(await store.load(drawId)).toBeUndefined()
    })

    it('refuses a gap and keeps what it had', async () => {
      const store = await fresh()
      await store.append(drawId, entries.slice(0, 3))
      await expect(store.append(drawId, entries.slice(4, 6))).rejects.toThrow(/Entry 4 is missing/)
      await expect(store.append(drawId, entries.slice(4, 6))).rejects.toMatchObject({
        fault: 'gap',
      })
      expect((await store.load(drawId))?.entries).toHaveLength(3)
    })

    it('takes an entry again that is already there with the same hash, and writes it once', async () => {
      const store = await fresh()
      await store.append(drawId, entries.slice(0, 3))
      await store.append(drawId, entries.slice(2, 3))
      await store.append(drawId, entries.slice(1, 5))
      await store.append(drawId, entries.slice(0, 2))
      expect((await store.load(drawId))?.entries).toEqual(entries.slice(0, 5))
    })

    it('refuses another entry in the place of one, and never overwrites', async () => {
      const store = await fresh()
      await store.append(drawId, entries.slice(0, 3))
      const other = { ...entries[2]!, by: 'somebody else', hash: 'a'.repeat(64) }
      await expect(store.append(drawId, [other])).rejects.toThrow(/already written/)
      await expect(store.append(drawId, [other])).rejects.toMatchObject({ fault: 'movedOn' })
      await expect(store.append(drawId, [other, entries[3]!])).rejects.toThrow()
      expect((await store.load(drawId))?.entries).toEqual(entries.slice(0, 3))
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
      const { hash: _hash, previous, ...bare } = { ...entries[3]!, by: 'somebody else' }
      const other = sealAll([bare], sha256, previous)
      const outcomes = await Promise.allSettled([
        first.append(drawId, entries.slice(3, 4)),
        second.append(drawId, other),
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
          // How far its log has come, so that what was read of it is read again only once it has grown.
          entries: later.entries.length,
        },
        {
          drawId,
          opened_ms: entries[0]!.at.at_ms,
          closed: true,
          patientName: 'Alex Invented',
          invented: false,
          entries: entries.length,
        },
      ])
    })

    it('lists with which draw the series of a draw began, also once more is written', async () => {
      const store = await fresh()
      const later = sampleLog({ opening: { sitting: { series: 'D7-20261125-0001', parts: [] } } })
      await store.append(drawId, later.entries.slice(0, 1))
      await store.append(drawId, later.entries.slice(1))
      expect((await store.list()).map(({ series, closed }) => [series, closed])).toEqual([
        ['D7-20261125-0001', true],
      ])
    })

    it('gives a claim to one of two, to others apart, and again once it is spent', async () => {
      const first = await fresh()
      const second = reopened ? await reopened(first) : first
      const both = await Promise.all([first.claim('D1 x/2', 1000), second.claim('D1 x/2', 1001)])
      expect(both.sort()).toEqual([false, true])
      expect(await second.claim('D1 x/3', 1002)).toBe(true)
      expect(await second.claim('D1 x/2', 30_000)).toBe(false)
      expect(await second.claim('D1 x/2', 31_001)).toBe(true)
      // The clock was set back by an hour: nobody waits for that long.
      expect(await first.claim('D1 x/2', 31_001 - 3_600_000)).toBe(true)
      expect(await first.list()).toEqual([])
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

    it('gives each number of a device and day once, to two callers in one moment as well', async () => {
      const first = await fresh()
      const second = reopened ? await reopened(first) : first
      const given = await Promise.all(
        [first, second, first, second].map((store) => store.reserveNumber('D7', '2026-11-25')),
      )
      expect([...given].sort()).toEqual([1, 2, 3, 4])
      expect(await first.reserveNumber('D7', '2026-11-26')).toBe(1)
      expect(await first.reserveNumber('D8', '2026-11-25')).toBe(1)
    })

    it('never gives the number of a draw that was brought in', async () => {
      const store = await fresh()
      expect(drawId).toBe('D7-20261125-0003')
      await store.adopt(log, '')
      expect(await store.reserveNumber('D7', '2026-11-25')).toBe(4)
    })

    it('takes a draw out with the text it came as, leaves the others, and never gives its number again', async () => {
      const store = await fresh()
      const other = logOf(straightLines(sampleOpening({ drawId: `${drawId}0` })))
      await store.adopt(log, 'as it came')
      await store.append(other.drawId, other.entries)
      await store.erase(drawId)
      expect(await store.load(drawId)).toBeUndefined()
      expect(await store.original(drawId)).toBeUndefined()
      expect((await store.list()).map((draw) => draw.drawId)).toEqual([other.drawId])
      expect((await store.load(other.drawId))?.entries).toHaveLength(other.entries.length)
      expect(await store.reserveNumber('D7', '2026-11-25')).toBe(4)
    })

    it.each(['D7-20261125-Infinity', 'D7-20261125-9007199254740992', 'D7-20261125-99999999'])(
      'goes on with the day although %s is stored',
      async (odd) => {
        const store = await fresh()
        await store.adopt(logOf(straightLines(sampleOpening({ drawId: odd }))), '')
        await store.append(drawId, entries)
        expect(await store.reserveNumber('D7', '2026-11-25')).toBe(4)
      },
    )

    it('gives a draw whose chain is broken with its first bad entry', async () => {
      const store = await fresh()
      const forged = entries.map((entry) => (entry.seq === 5 ? { ...entry, by: 'c9' } : entry))
      await store.append(drawId, forged)
      const read = await store.load(drawId)
      expect(read?.fault).toMatchObject({ kind: 'brokenHash', seq: 5 })
      expect(read?.entries).toHaveLength(entries.length)
    })

    it('gives what can be read of a damaged draw, and says where it ends', async () => {
      const store = await fresh()
      const torn = { ...entries[8]!, event: { type: 'torn' } } as unknown as LogEntry
      const damaged = [...entries.slice(0, 8), torn, ...entries.slice(9)]
      await store.append(drawId, damaged)
      const read = await store.load(drawId)
      expect(read?.fault?.seq).toBe(9)
      expect(read?.entries).toEqual(entries.slice(0, 8))
    })

    it('says that a draw is damaged of which not even the opening can be read', async () => {
      const store = await fresh()
      // The consent stands first: a chain of its own, but no opening.
      const { hash: _hash, previous: _previous, ...bare } = entries[3]!
      await store.append(drawId, sealAll([{ ...bare, seq: 1 }], sha256))
      await expect(store.load(drawId)).rejects.toMatchObject({ fault: 'damaged' })
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
