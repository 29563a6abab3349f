import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { createMemoryClinic } from '../../src/adapters/hub/memory/memoryClinic.ts'
import { createSimulatedClock } from '../../src/adapters/time/simulatedClock.ts'
import { sendLog, type SentLog } from '../../src/app/hub/sendLog.ts'
import { drawLogName } from '../../src/core/hub/logNames.ts'
import { createReplica, type Hand, type ReplicaLog } from '../../src/core/hub/replica.ts'
import type { LastAtHub } from '../../src/core/hub/sendPlan.ts'
import { checkChain } from '../../src/core/log/checkChain.ts'
import { sealAll } from '../../src/core/log/seal.ts'
import type { ChainEntry } from '../../src/core/protocol/entry.ts'
import type { Hub } from '../../src/ports/hub.ts'
import { quickEnvelopes } from '../support/clinicTrust.ts'
import { sha256 } from '../support/sampleLog.ts'

const LOG = drawLogName('A1-20261127-0001')
const START = { wall_ms: 1_795_737_600_000, mono_ms: 0, boot: 'b', offset_min: 0 }

/** What can happen to a draw that one device writes and another one may take over. */
const MOVES = [
  'aWrites',
  'bWrites',
  'aSends',
  'bSends',
  'bTakes',
  'aTakes',
  'aLooks',
  'bLooks',
] as const
const FAULTS = ['copy', 'restore', 'down', 'up', 'loseAll', 'loseSome', 'loseNone'] as const
type Act = (typeof MOVES)[number] | (typeof FAULTS)[number]

interface Device {
  readonly id: string
  readonly hub: Hub
  own: readonly ChainEntry[]
  hasTaken: boolean
  hands: readonly Hand[]
  /** The end of the log as it stood when it was sent last; of a connection that broke nothing is known. */
  known: LastAtHub | undefined
}

const clock = createSimulatedClock(START)

const ticks = async (): Promise<void> => {
  for (let i = 0; i < 5; i++) await Promise.resolve()
}

function behind(own: readonly ChainEntry[], text: string): readonly ChainEntry[] {
  const last = own.at(-1)
  const at = { at_ms: START.wall_ms, ...START }
  const entry = { seq: (last?.seq ?? 0) + 1, at, by: 'x', source: 'touch' as const }
  return [
    ...own,
    ...sealAll([{ ...entry, event: { type: 'noteAdded', text } }], sha256, last?.hash),
  ]
}

async function folded(device: Device): Promise<ReplicaLog | undefined> {
  const replica = createReplica(sha256)
  const envelopes = quickEnvelopes(device.id)
  for (const entry of await device.hub.read({}, 0)) replica.add(await envelopes.open(entry))
  return replica.log(LOG)
}

async function send(device: Device): Promise<SentLog> {
  const { id, hub, own, known, hasTaken, hands } = device
  device.known = undefined
  const sent = await sendLog({ hub, envelopes: quickEnvelopes(id), sha256 }, LOG, own, {
    ...{ known, hasTaken, hands, takeNote: { by: id } },
    onConfirmed: () => undefined,
  })
  device.known = sent.kind === 'done' ? sent.last : undefined
  return sent
}

/** As the app does it: the whole log is read, kept here, and the hub is told who writes it. */
async function take(device: Device): Promise<void> {
  const there = await folded(device)
  if (!there || there.entries.length < device.own.length) return
  const isPrefix = device.own.every(({ hash }, index) => there.entries[index]?.hash === hash)
  if (!isPrefix || there.hands.at(-1)?.device === device.id) return
  const { seq, hash } = there.entries.at(-1) ?? { seq: 0, hash: '0'.repeat(64) }
  const bytes = await quickEnvelopes(device.id).close(
    'writer',
    LOG,
    { seq, hash },
    { by: device.id },
  )
  device.own = there.entries.map(({ raw }) => raw as ChainEntry)
  device.hasTaken = true
  device.known = undefined
  // A lost answer leaves it taken here and unknown there; the sender goes on with it.
  await device.hub.append(LOG, 'writer', bytes, there.sequence).catch(() => undefined)
  device.own = behind(device.own, `taken by ${device.id}`)
}

interface Outcome {
  readonly a: Device
  readonly b: Device
  readonly ends: Readonly<Record<string, SentLog>>
  readonly record: readonly unknown[]
}

async function run(
  acts: readonly Act[],
  rounds: readonly ('a' | 'b')[] = ['a', 'b', 'a', 'b', 'a', 'b'],
): Promise<Outcome> {
  const clinic = createMemoryClinic(clock)
  const join = (id: string): Device => {
    const hub = clinic.join(id)
    hub.start()
    const device: Device = { id, hub, own: [], hasTaken: false, hands: [], known: undefined }
    hub.onState(() => (device.known = undefined))
    return device
  }
  const a = join('a')
  const b = join('b')
  await ticks()
  let copy = clinic.copy()
  let count = 0
  const quietly = async (work: Promise<unknown>): Promise<void> =>
    void (await work.catch(() => undefined))
  const does: Readonly<Record<Act, () => Promise<void> | void>> = {
    aWrites: () => void (a.own = behind(a.own, `a${++count}`)),
    bWrites: () => {
      if (b.hasTaken) b.own = behind(b.own, `b${++count}`)
    },
    aSends: () => quietly(send(a)),
    bSends: () => (b.own.length > 0 ? quietly(send(b)) : undefined),
    bTakes: () => quietly(take(b)),
    aTakes: () => quietly(take(a)),
    aLooks: () => quietly(folded(a).then((log) => (a.hands = log?.hands ?? a.hands))),
    bLooks: () => quietly(folded(b).then((log) => (b.hands = log?.hands ?? b.hands))),
    copy: () => void (copy = clinic.copy()),
    restore: () => clinic.restore(copy),
    down: () => clinic.setUp(false),
    up: () => clinic.setUp(true),
    loseAll: () => clinic.loseAnswers(1),
    loseSome: () => clinic.loseAnswers(3),
    loseNone: () => clinic.loseAnswers(0),
  }
  for (const act of acts) {
    await does[act]()
    await ticks()
  }
  clinic.loseAnswers(0)
  clinic.setUp(true)
  await ticks()
  // Twice round: what one brings may be what the other has waited for.
  const ends: Record<string, SentLog> = {}
  for (const device of rounds.map((id) => ({ a, b })[id]))
    if (device.own.length > 0) ends[device.id] = await send(device)
  const record = ((await folded(a))?.entries ?? []).map(({ raw }) => raw)
  return { a, b, ends, record }
}

const hashes = (entries: readonly unknown[]): readonly string[] =>
  entries.map((entry) => (entry as ChainEntry).hash)

/** So many of its entries stand in the record; of the others it is told that they do not. */
const counted_n = (device: Device, end: SentLog | undefined): number =>
  end?.kind === 'aside' ? end.from_seq - 1 : device.own.length

const alone = fc.array(fc.constantFrom<Act>('aWrites', 'aWrites', 'aSends', ...FAULTS), {
  maxLength: 40,
})
const both = fc.array(fc.constantFrom<Act>(...MOVES, 'aWrites', 'aSends', ...FAULTS), {
  maxLength: 40,
})

describe('a draw on its way to the hub', () => {
  it('is there whole, each entry once and in order, whatever happened to answers, hub and disk', async () => {
    await fc.assert(
      fc.asyncProperty(alone, async (acts) => {
        const { a, ends, record } = await run(acts)
        expect(hashes(record)).toEqual(hashes(a.own))
        if (a.own.length > 0) expect(ends['a']?.kind).toBe('done')
      }),
      { numRuns: 120 },
    )
  })

  it('is sent on behind what this connection knows of its end, without being asked for it each time', async () => {
    const clinic = createMemoryClinic(clock)
    const hub = clinic.join('a')
    hub.start()
    await ticks()
    let asked_n = 0
    const counted = { ...hub, last: (log: string) => (asked_n++, hub.last(log)) }
    const a: Device = {
      id: 'a',
      hub: counted,
      own: [],
      hasTaken: false,
      hands: [],
      known: undefined,
    }
    for (let i = 0; i < 5; i++) {
      a.own = behind(a.own, `a${i}`)
      await send(a)
    }
    expect(asked_n).toBe(1)
    expect((await folded(a))?.entries).toHaveLength(5)
  })

  it('with two writers: the record is one whole chain, and no entry is lost without its device being told', async () => {
    await fc.assert(
      fc.asyncProperty(both, async (acts) => {
        const { a, b, ends, record } = await run(acts)
        expect(checkChain(record, sha256)).toBeUndefined()
        expect(new Set(hashes(record)).size).toBe(record.length)
        for (const device of [a, b]) {
          const counts = hashes(device.own).slice(0, counted_n(device, ends[device.id]))
          expect(hashes(record).slice(0, counts.length)).toEqual(counts)
        }
      }),
      { numRuns: 200 },
    )
  })

  it('of a device that says all of it is there, all of it is there, also where the other one never comes back', async () => {
    await fc.assert(
      fc.asyncProperty(both, fc.constantFrom<'a' | 'b'>('a', 'b'), async (acts, id) => {
        const { ends, record, ...devices } = await run(acts, [id, id, id])
        const device = devices[id]
        const end = ends[id]
        if (end?.kind === 'done') {
          expect(hashes(record).slice(0, device.own.length)).toEqual(hashes(device.own))
        }
      }),
      { numRuns: 200 },
    )
  })

  it('handed over cleanly it is what both wrote, one behind the other', async () => {
    const { a, b, ends, record } = await run([
      'aWrites',
      'aWrites',
      'aSends',
      'bTakes',
      'bWrites',
      'bSends',
      'aWrites',
      'aSends',
    ])
    expect(hashes(record)).toEqual(hashes(b.own))
    expect(record).toHaveLength(4)
    expect(a.own).toHaveLength(3)
    expect(ends['a']).toEqual({ kind: 'aside', from_seq: 3, writer: 'b' })
  })

  it('a hub that lost the hand-over with its disk is told again, and the new device brings what both wrote', async () => {
    const acts: Act[] = [
      'aWrites',
      'aSends',
      'copy',
      'aWrites',
      'aSends',
      'bTakes',
      'bWrites',
      'bSends',
    ]
    const { b, record } = await run([...acts, 'aLooks', 'restore', 'bSends'])
    expect(hashes(record)).toEqual(hashes(b.own))
  })

  it('a hub that lost the end of a log is told it by the device that took it over, also where the first never returns', async () => {
    const acts: Act[] = [
      'aWrites',
      'aSends',
      'copy',
      'aWrites',
      'aSends',
      'bTakes',
      'bWrites',
      'bSends',
    ]
    const { b, ends, record } = await run([...acts, 'bLooks', 'restore'], ['b', 'b'])
    expect(ends['b']?.kind).toBe('done')
    expect(hashes(record)).toEqual(hashes(b.own))
  })
})
