import { describe, expect, it } from 'vitest'
import { dayLogName, drawLogName } from '../../../src/core/hub/logNames.ts'
import {
  createReplica,
  writerOf,
  type Arrived,
  type Replica,
} from '../../../src/core/hub/replica.ts'
import { NO_PREVIOUS, sealAll } from '../../../src/core/log/seal.ts'
import type { ChainEntry } from '../../../src/core/protocol/entry.ts'
import { sha256 } from '../../support/sampleLog.ts'

const LOG = drawLogName('A1-20261127-0001')
const START = { wall_ms: 1_795_737_600_000, mono_ms: 0, boot: 'b', offset_min: 0 }

function chain(texts: readonly string[], onto: readonly ChainEntry[] = []): readonly ChainEntry[] {
  const bare = texts.map((text, index) => ({
    seq: onto.length + index + 1,
    at: { at_ms: START.wall_ms, ...START },
    by: 'x',
    source: 'touch' as const,
    event: { type: 'noteAdded', text },
  }))
  return [...onto, ...sealAll(bare, sha256, onto.at(-1)?.hash)]
}

let sequence = 0
const message = (
  device: string,
  { seq, hash, ...rest }: ChainEntry,
  more: Partial<Arrived> = {},
): Arrived => {
  sequence++
  const content = { seq, hash, ...rest }
  return { sequence, at_ms: sequence, device, kind: 'entry', log: LOG, seq, hash, content, ...more }
}
const handOver = (
  device: string,
  last: ChainEntry | undefined,
  more: Partial<Arrived> = {},
): Arrived => {
  sequence++
  const { seq, hash } = last ?? { seq: 0, hash: NO_PREVIOUS }
  return {
    sequence,
    at_ms: sequence,
    device,
    kind: 'writer',
    log: LOG,
    seq,
    hash,
    content: {},
    ...more,
  }
}
const whys = (replica: Replica): readonly string[] => replica.asides().map(({ why }) => why)
const texts = (replica: Replica, log = LOG): readonly unknown[] =>
  (replica.log(log)?.entries ?? []).map(
    ({ raw }) => (raw as { event: { text: string } }).event.text,
  )

const three = chain(['one', 'two', 'three'])
const [first, second, third] = three as [ChainEntry, ChainEntry, ChainEntry]

describe('the logs of the clinic, put together from the stream', () => {
  it('grow by what follows', () => {
    const replica = createReplica(sha256)
    for (const entry of three) replica.add(message('a', entry))
    expect(texts(replica)).toEqual(['one', 'two', 'three'])
    expect(replica.log(LOG)).toMatchObject({ sure: 3, hands: [{ device: 'a', from_seq: 1 }] })
    expect(replica.asides()).toEqual([])
  })

  it('hold once what comes twice', () => {
    const replica = createReplica(sha256)
    for (const entry of [first, first, second, first, second]) replica.add(message('a', entry))
    expect(texts(replica)).toEqual(['one', 'two'])
  })

  it('keep apart what another device sends into a log', () => {
    const replica = createReplica(sha256)
    replica.add(message('a', first))
    replica.add(message('b', second))
    expect(texts(replica)).toEqual(['one'])
    expect(replica.asides()).toMatchObject([{ why: 'otherWriter', device: 'b', seq: 2 }])
  })

  it('with an entry missing wait for it, and go on once it came', () => {
    const replica = createReplica(sha256)
    replica.add(message('a', first))
    const late = message('a', second)
    const early = message('a', third)
    replica.add(early)
    expect(whys(replica)).toEqual(['brokenChain'])
    for (const each of [late, early]) replica.add(each)
    expect(texts(replica)).toEqual(['one', 'two', 'three'])
    expect(replica.asides()).toEqual([])
  })

  it.each<[string, Partial<Arrived>]>([
    ['another number inside', { content: { ...second, seq: 3 } }],
    ['another hash outside', { hash: 'f'.repeat(64) }],
    ['a changed text', { content: { ...second, event: { type: 'noteAdded', text: 'else' } } }],
    ['another link', { content: { ...second, previous: 'f'.repeat(64) } }],
    ['nothing in it', { content: null }],
    ['half a surrogate pair', { content: { ...second, by: '\uD800' } }],
  ])('take no entry with %s', (_, change) => {
    const replica = createReplica(sha256)
    replica.add(message('a', first))
    replica.add(message('a', second, change))
    expect(texts(replica)).toEqual(['one'])
    expect(whys(replica)).toEqual(['brokenChain'])
  })

  it('take nothing that was refused before', () => {
    const replica = createReplica(sha256)
    replica.add(message('a', first, { refused: 'badSignature' }))
    expect(replica.log(LOG)).toMatchObject({ entries: [], hands: [] })
    expect(whys(replica)).toEqual(['badSignature'])
  })

  it('pass to another device with everything before, and back', () => {
    const replica = createReplica(sha256)
    const [, , , fourth, fifth] = chain(['four', 'five'], three) as [
      never,
      never,
      never,
      ChainEntry,
      ChainEntry,
    ]
    for (const entry of three) replica.add(message('a', entry))
    replica.add(handOver('b', third))
    replica.add(message('b', fourth))
    replica.add(message('a', fifth))
    expect(whys(replica)).toEqual(['otherWriter'])
    replica.add(handOver('a', fourth))
    replica.add(message('a', fifth))
    expect(texts(replica)).toEqual(['one', 'two', 'three', 'four', 'five'])
    expect(replica.log(LOG)?.hands.map(({ device, from_seq }) => [device, from_seq])).toEqual([
      ['a', 1],
      ['b', 4],
      ['a', 5],
    ])
  })

  it('do not pass to a device that has not seen everything', () => {
    const replica = createReplica(sha256)
    for (const entry of three) replica.add(message('a', entry))
    replica.add(handOver('b', second))
    replica.add(handOver('b', third, { hash: 'f'.repeat(64) }))
    expect(writerOf(replica.log(LOG) ?? { hands: [] })).toBe('a')
    expect(whys(replica)).toEqual(['brokenChain', 'brokenChain'])
  })

  it('of a day are written by their own device alone', () => {
    const replica = createReplica(sha256)
    const log = dayLogName('2026-11-27', 'a')
    replica.add(message('b', first, { log }))
    replica.add(message('a', first, { log }))
    expect(whys(replica)).toEqual(['otherDay'])
    expect(texts(replica, log)).toEqual(['one'])
  })

  it('under no name of ours are kept apart', () => {
    const replica = createReplica(sha256)
    replica.add(message('a', first, { log: 'elsewhere' }))
    expect(whys(replica)).toEqual(['unreadable'])
  })

  it('stay when the hub came back without their end, with who wrote them', () => {
    const replica = createReplica(sha256)
    for (const entry of three) replica.add(message('a', entry))
    replica.add(handOver('b', third))
    replica.rewound()
    replica.add(message('a', first))
    expect(texts(replica)).toEqual(['one', 'two', 'three'])
    expect(replica.log(LOG)).toMatchObject({ sure: 1 })
    expect(writerOf(replica.log(LOG) ?? { hands: [] })).toBe('b')
    for (const entry of [second, third]) replica.add(message('a', entry))
    expect(replica.log(LOG)?.sure).toBe(3)
    expect(replica.asides()).toEqual([])
  })

  it('follow the hub where it goes on otherwise after it lost something, and keep apart what was held', () => {
    const replica = createReplica(sha256)
    for (const entry of three) replica.add(message('a', entry))
    replica.rewound()
    const other = chain(['other'], [first])
    for (const entry of other) replica.add(message('a', entry))
    expect(texts(replica)).toEqual(['one', 'other'])
    expect(replica.asides().map(({ seq }) => seq)).toEqual([2, 3])
  })

  it('are not filled by a device that runs wild', () => {
    const replica = createReplica(sha256)
    for (let i = 0; i < 2000; i++) replica.add(message('b', second, { refused: 'revoked' }))
    expect(replica.asides()).toHaveLength(500)
    expect(replica.setAside_n()).toBe(2000)
  })
})
