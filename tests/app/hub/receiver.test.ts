import { describe, expect, it, vi } from 'vitest'
import { createMemoryHubStore } from '../../../src/adapters/storage/hubStore.ts'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import { createReceiver } from '../../../src/app/hub/receiver.ts'
import { HUB_START, type HubEntry } from '../../../src/core/hub/hubEntry.ts'
import { drawLogName } from '../../../src/core/hub/logNames.ts'
import { sealAll } from '../../../src/core/log/seal.ts'
import type { ChainEntry } from '../../../src/core/protocol/entry.ts'
import type { Hub, HubWatcher } from '../../../src/ports/hub.ts'
import { quickEnvelopes } from '../../support/clinicTrust.ts'
import { SAMPLE_START_ms, sha256 } from '../../support/sampleLog.ts'

const LOG = drawLogName('BB33-20261125-0001')
const READING = { boot: 'a', mono_ms: 0, wall_ms: SAMPLE_START_ms, offset_min: 60 }

/** A chain of notes. */
const chain = (count: number): readonly ChainEntry[] =>
  sealAll(
    Array.from({ length: count }, (_, index) => ({
      seq: index + 1,
      at: { at_ms: READING.wall_ms, ...READING },
      by: 'x',
      source: 'touch' as const,
      event: { type: 'noteAdded' as const, text: `${index + 1}` },
    })),
    sha256,
  )

/** As the hub gives them, the first of them at that place of its stream. */
const given = (entries: readonly ChainEntry[], from = 1, log = LOG): Promise<HubEntry[]> =>
  Promise.all(
    entries.map(async (entry, index) => ({
      sequence: from + index,
      log,
      device: 'b',
      kind: 'entry' as const,
      behind: index === 0 ? 0 : from + index - 1,
      at_ms: SAMPLE_START_ms + from + index,
      bytes: await quickEnvelopes('b').close('entry', log, entry, entry),
    })),
  )

/** A receiver at a hub of which the test says what it gives. */
async function receiving(
  store = createMemoryHubStore(),
  read: Hub['read'] = () => Promise.resolve([]),
) {
  let watcher: HubWatcher | undefined
  let after = HUB_START
  const receiver = createReceiver({
    hub: {
      read,
      watch: (_scope, from, given) => {
        watcher = given
        after = from
        return () => undefined
      },
    },
    store,
    envelopes: quickEnvelopes('a'),
    sha256,
    clock: createSimulatedClock(READING),
    onChange: () => undefined,
  })
  await receiver.start()
  if (!watcher) throw new Error('Nothing is watched')
  const hub = watcher
  return {
    receiver,
    store,
    hub,
    after,
    give: (entries: readonly HubEntry[]) => entries.forEach((entry) => hub.entry(entry, 0)),
  }
}

describe('what this device reads of the hub', () => {
  it('with more in hand than it has worked through when the hub begins another past keeps each in its own', async () => {
    const { store, hub, give, receiver } = await receiving()
    const all = await given(chain(600))
    const other = await given(chain(3), 1, drawLogName('BB33-20261125-0002'))
    give(all)
    hub.rewound?.()
    give(other)
    await vi.waitFor(async () => expect(await store.entries()).toHaveLength(603))
    const pasts = (await store.entries()).map(({ past, entry }) => `${past} ${entry.log}`)
    expect(pasts.filter((row) => row === `0 ${LOG}`)).toHaveLength(600)
    expect(pasts.filter((row) => row.startsWith('1 '))).toHaveLength(3)
    expect(await store.read()).toMatchObject({ past: 1, position: { sequence: 3 } })
    // All is held that the hub may have lost, and none of it counts as standing there.
    expect(receiver.replica().log(LOG)).toMatchObject({ sure: 0, entries: { length: 600 } })
  })

  it('goes on where it was on a disk that is full, and reads again after the next start what was not kept', async () => {
    const store = createMemoryHubStore()
    const add = vi.spyOn(store, 'add').mockRejectedValue(new Error('full'))
    const all = await given(chain(5))
    const full = await receiving(store)
    full.give(all)
    await vi.waitFor(() => expect(full.receiver.replica().log(LOG)?.entries).toHaveLength(5))
    await full.receiver.openAgain()
    expect(full.receiver.replica().log(LOG)?.entries).toHaveLength(5)
    add.mockRestore()
    const { after, give, receiver } = await receiving(store)
    expect(after).toEqual(HUB_START)
    give(all)
    await vi.waitFor(async () => expect(await store.entries()).toHaveLength(5))
    expect(receiver.replica().log(LOG)?.entries).toHaveLength(5)
  })

  it('begun in mid-chain is whole once the log was read from its beginning, also after the next start', async () => {
    const all = await given(chain(6))
    const store = createMemoryHubStore()
    await store.add(0, all.slice(0, 4))
    await store.eraseBefore((all[3]?.at_ms ?? 0) + 1)
    const read: Hub['read'] = () => Promise.resolve(all)
    const first = await receiving(store, read)
    expect(first.receiver.replica().log(LOG)).toBeUndefined()
    first.give(all.slice(4))
    await vi.waitFor(async () => expect(await store.entries()).not.toHaveLength(0))
    expect(first.receiver.replica().log(LOG)?.entries).toHaveLength(6)
    await first.receiver.openAgain()
    expect(first.receiver.replica().log(LOG)?.entries).toHaveLength(6)
    const second = await receiving(store, read)
    second.hub.caughtUp?.()
    await vi.waitFor(() => expect(second.receiver.replica().log(LOG)?.entries).toHaveLength(6))
  })

  it('is kept with whose signature was good, which is not looked at again', async () => {
    const store = createMemoryHubStore()
    const all = await given(chain(3))
    const forged = await Promise.all(
      all.map(async (entry) => ({
        ...entry,
        bytes: await quickEnvelopes('x').close('entry', LOG, { seq: 1, hash: '' }, {}),
      })),
    )
    const { give } = await receiving(store)
    give([...all.slice(0, 2), { ...(forged[2] ?? forged[0]), log: LOG } as HubEntry])
    await vi.waitFor(async () => expect(await store.entries()).toHaveLength(3))
    const kept = await store.entries()
    expect(kept.map(({ entry }) => entry.isVerified)).toEqual([true, true, undefined])
  })

  it('is stopped by no device that writes what makes no sense', async () => {
    const { give, receiver } = await receiving()
    const odd: unknown[] = [null, 7, [], {}, { seq: 1 }, { seq: 1, hash: 1, previous: null }]
    const envelopes = quickEnvelopes('b')
    const [first] = chain(1)
    const nonsense = await Promise.all(
      odd.map(async (content, index): Promise<HubEntry> => {
        const log = drawLogName(`BB33-20261125-1${index}`)
        const bytes = await envelopes.close(
          'entry',
          log,
          { seq: 1, hash: first?.hash ?? '' },
          content,
        )
        const head = { sequence: index + 1, log, device: 'b', kind: 'entry' as const, behind: 0 }
        return { ...head, at_ms: SAMPLE_START_ms + index, bytes }
      }),
    )
    give([...nonsense, ...(await given(chain(3), 10))])
    await vi.waitFor(() => expect(receiver.replica().log(LOG)?.entries).toHaveLength(3))
    expect(receiver.replica().setAside_n()).toBe(odd.length)
  })
})
