import { expect, it, vi } from 'vitest'
import { HUB_START } from '../../src/core/hub/hubEntry.ts'
import { HUB_BYTES_MAX } from '../../src/core/hub/hubNames.ts'
import { bytesOf, placeOf, say, SOON, text, words, type ContractRig } from '../support/hubRig.ts'

/** What every hub must do with logs: keep them whole, in order, and apart. */
export function hubLogsContract(rig: ContractRig): void {
  it('gives back what was appended, in order, byte for byte, with who sent it and when', async () => {
    const hub = await rig.join('A1')
    const every = Uint8Array.from({ length: 256 }, (_, i) => i)
    const before_ms = Date.now()
    const first = placeOf(await hub.append('draw-1', 'entry', every, 0))
    const second = placeOf(await hub.append('draw-1', 'writer', new Uint8Array(), first))
    const read = await hub.read({}, 0)
    expect(read.map(({ at_ms: _, ...entry }) => entry)).toEqual([
      { sequence: first, log: 'draw-1', device: 'A1', kind: 'entry', behind: 0, bytes: every },
      {
        sequence: second,
        log: 'draw-1',
        device: 'A1',
        kind: 'writer',
        behind: first,
        bytes: new Uint8Array(),
      },
    ])
    for (const { at_ms } of read) expect(Math.abs(at_ms - before_ms)).toBeLessThan(60_000)
    expect(await hub.last('draw-1')).toEqual(read[1])
    expect(await hub.last('draw-2')).toBeUndefined()
  })

  it('keeps what it was given when the giver changes the bytes afterwards', async () => {
    const hub = await rig.join('A1')
    const bytes = bytesOf('band on')
    const sent = hub.append('draw-1', 'entry', bytes, 0)
    await sent
    bytes.fill(0)
    expect(words(await hub.read({}, 0))).toEqual(['band on'])
  })

  it('answers an entry that is sent again with what stands there: the same', async () => {
    const hub = await rig.join('A1')
    const last = await say(hub, 'draw-1', ['a', 'b', 'c'])
    const [, second] = await hub.read({}, 0)
    const again = await hub.append('draw-1', 'entry', bytesOf('b'), second!.behind)
    expect(again).toEqual({ kind: 'stale', next: second })
    expect((await hub.read({}, 0)).map(({ sequence }) => sequence).at(-1)).toBe(last)
    expect(await hub.read({}, 0)).toHaveLength(3)
  })

  it('says of a place it does not know that nothing stands behind it', async () => {
    const hub = await rig.join('A1')
    const last = await say(hub, 'draw-1', ['a'])
    const beyond = await hub.append('draw-1', 'entry', bytesOf('b'), last + 7)
    expect(beyond).toEqual({ kind: 'stale' })
    expect(await hub.append('draw-2', 'entry', bytesOf('b'), last)).toEqual({ kind: 'stale' })
    expect(await hub.read({}, 0)).toHaveLength(1)
  })

  it('takes one of two devices that write to one log at one time, and tells the other whose stands there', async () => {
    const [a, b] = [await rig.join('A1'), await rig.join('B2')]
    let last = await say(a, 'draw-1', ['opened'])
    for (let round = 0; round < 10; round++) {
      const both = await Promise.all([
        a.append('draw-1', 'entry', bytesOf(`a${round}`), last),
        b.append('draw-1', 'entry', bytesOf(`b${round}`), last),
      ])
      expect(both.map(({ kind }) => kind).sort()).toEqual(['stale', 'stored'])
      const winner = both[0].kind === 'stored' ? 'A1' : 'B2'
      const loser = both.find(({ kind }) => kind === 'stale')
      expect(loser).toMatchObject({ next: { device: winner, behind: last } })
      last = placeOf(both.find(({ kind }) => kind === 'stored')!)
    }
    expect(await a.read({}, 0)).toHaveLength(11)
  })

  it('lets another device take a log over; the one before then writes behind nothing', async () => {
    const [a, b] = [await rig.join('A1'), await rig.join('B2')]
    const last = await say(a, 'draw-1', ['a', 'b'])
    const over = placeOf(await b.append('draw-1', 'writer', bytesOf('B2 from here'), last))
    const late = await a.append('draw-1', 'entry', bytesOf('c'), last)
    expect(late).toMatchObject({
      kind: 'stale',
      next: { sequence: over, device: 'B2', kind: 'writer' },
    })
    await say(b, 'draw-1', ['c', 'd'], over)
    const read = await a.read({ log: 'draw-1' }, 0)
    expect(read.map(({ device }) => device).join(' ')).toBe('A1 A1 B2 B2 B2')
    expect(words(await a.read({ kind: 'writer' }, 0))).toEqual(['B2 from here'])
  })

  it('reads one log or all, from any place on', async () => {
    const hub = await rig.join('A1')
    const first = await say(hub, 'draw-1', ['a'])
    const other = await say(hub, 'draw-10', ['x', 'y'])
    await say(hub, 'draw-1', ['b'], first)
    expect(words(await hub.read({}, 0))).toEqual(['a', 'x', 'y', 'b'])
    expect(words(await hub.read({ log: 'draw-1' }, 0))).toEqual(['a', 'b'])
    expect(words(await hub.read({ log: 'draw-10' }, 0))).toEqual(['x', 'y'])
    expect(words(await hub.read({ log: 'draw-1' }, first))).toEqual(['b'])
    expect(words(await hub.read({}, other))).toEqual(['b'])
    expect(await hub.read({}, other + 100)).toEqual([])
    expect(await hub.read({ log: 'nobody' }, 0)).toEqual([])
  })

  it('keeps logs of any name apart, and refuses what is no name', async () => {
    const hub = await rig.join('Tablet 3.b')
    const names = ['a.b', 'a.*', 'a.>', '>', '*', 'a b', 'a_2E', 'a_', 'Ärztin/3', '日', 'a.b.c']
    for (const log of names) await say(hub, log, [`1 of ${log}`, `2 of ${log}`])
    for (const log of names) {
      expect(words(await hub.read({ log }, 0))).toEqual([`1 of ${log}`, `2 of ${log}`])
      expect(await hub.last(log)).toMatchObject({ log, device: 'Tablet 3.b' })
    }
    for (const log of ['', 'x'.repeat(101), 'half \ud83d']) {
      const refused = { fault: 'badName' }
      await expect(hub.append(log, 'entry', bytesOf('a'), 0)).rejects.toMatchObject(refused)
      await expect(hub.read({ log }, 0)).rejects.toMatchObject(refused)
      await expect(hub.last(log)).rejects.toMatchObject(refused)
    }
    for (const behind of [-1, 0.5, NaN, Infinity]) {
      const bad = hub.append('draw-1', 'entry', bytesOf('a'), behind)
      await expect(bad).rejects.toMatchObject({ fault: 'badName' })
    }
  })

  it('refuses what is larger than a message, and takes what is as large', async () => {
    const hub = await rig.join('A1')
    const most = new Uint8Array(HUB_BYTES_MAX).fill(7)
    const more = new Uint8Array(HUB_BYTES_MAX + 1)
    const large = { fault: 'tooLarge' }
    await expect(hub.append('draw-1', 'entry', more, 0)).rejects.toMatchObject(large)
    await expect(hub.keys.put('site/limits', more, 0)).rejects.toMatchObject(large)
    await say(hub, 'draw-1', ['a'], placeOf(await hub.append('draw-1', 'entry', most, 0)))
    expect(Buffer.compare((await hub.read({}, 0))[0]!.bytes, most)).toBe(0)
  })

  it('tells who watches of each entry once, in order, what was there and what comes', async () => {
    const [a, b] = [await rig.join('A1'), await rig.join('B2')]
    const last = await say(a, 'draw-1', ['a', 'b'])
    const seen: string[] = []
    const waiting: number[] = []
    let ends = 0
    const stop = b.watch({}, HUB_START, {
      entry: (entry, waiting_n) => {
        seen.push(text(entry.bytes))
        waiting.push(waiting_n)
      },
      caughtUp: () => (ends += 1),
    })
    await vi.waitFor(() => expect(ends).toBe(1), SOON)
    expect(seen).toEqual(['a', 'b'])
    expect(waiting).toEqual([1, 0])
    await say(a, 'draw-2', ['x'])
    await say(a, 'draw-1', ['c'], last)
    await vi.waitFor(() => expect(seen).toEqual(['a', 'b', 'x', 'c']), SOON)
    stop()
    stop()
    await say(a, 'draw-3', ['unseen'])
    await b.read({}, 0)
    expect(seen).toHaveLength(4)
    expect(ends).toBe(1)
  })

  it('watches one log, or one kind, from a place on', async () => {
    const [a, b] = [await rig.join('A1'), await rig.join('B2')]
    const last = await say(a, 'draw-1', ['a', 'b'])
    await say(a, 'draw-10', ['x'])
    const [first] = await a.read({}, 0)
    const seen: string[] = []
    const writers: string[] = []
    b.watch({ log: 'draw-1' }, first!, { entry: (entry) => seen.push(text(entry.bytes)) })
    b.watch({ kind: 'writer' }, HUB_START, {
      entry: (entry) => writers.push(text(entry.bytes)),
    })
    const over = placeOf(await b.append('draw-1', 'writer', bytesOf('mine'), last))
    await say(b, 'draw-1', ['c'], over)
    await vi.waitFor(() => expect(seen).toEqual(['b', 'mine', 'c']), SOON)
    await vi.waitFor(() => expect(writers).toEqual(['mine']), SOON)
  })
}
