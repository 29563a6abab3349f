import { expect, it, vi } from 'vitest'
import { HUB_START } from '../../src/core/hub/hubEntry.ts'
import type { HubState } from '../../src/ports/hub.ts'
import {
  bytesOf,
  connected,
  PATIENCE_ms,
  say,
  SOON,
  text,
  words,
  type ContractRig,
} from '../support/hubRig.ts'

/** What every hub must do when the link breaks, hangs, or leads to another past. */
export function hubLinkContract(rig: ContractRig): void {
  it('is off, connects when it is started, and is off again', async () => {
    const hub = await rig.joinOff('A1')
    const kinds: HubState['kind'][] = []
    hub.onState((state) => kinds.push(state.kind))
    expect(hub.state()).toEqual({ kind: 'off' })
    await expect(hub.last('draw-1')).rejects.toMatchObject({ fault: 'stopped' })
    await connected(hub)
    hub.start()
    await hub.stop()
    await hub.stop()
    await expect(hub.last('draw-1')).rejects.toMatchObject({ fault: 'stopped' })
    await connected(hub)
    expect(kinds).toEqual(['connecting', 'connected', 'off', 'connecting', 'connected'])
  })

  it('is alone when the hub goes, answers so in time, and goes on when it comes back', async () => {
    const [a, b] = [await rig.join('A1'), await rig.join('B2')]
    const last = await say(a, 'draw-1', ['a'])
    const seen: string[] = []
    const told = { rewound: 0, caughtUp: 0 }
    b.watch({}, HUB_START, {
      entry: (entry) => seen.push(text(entry.bytes)),
      rewound: () => (told.rewound += 1),
      caughtUp: () => (told.caughtUp += 1),
    })
    await vi.waitFor(() => expect(seen).toEqual(['a']), SOON)
    await rig.clinic().down()
    await vi.waitFor(() => expect(a.state().kind).toBe('alone'), SOON)
    await vi.waitFor(() => expect(b.state().kind).toBe('alone'), SOON)
    const since_ms = Date.now()
    const away = { fault: 'unreachable' }
    await expect(a.append('draw-1', 'entry', bytesOf('b'), last)).rejects.toMatchObject(away)
    await expect(a.last('draw-1')).rejects.toMatchObject(away)
    await expect(a.read({}, 0)).rejects.toMatchObject(away)
    await expect(a.keys.get('claim/1')).rejects.toMatchObject(away)
    await expect(a.keys.put('claim/1', bytesOf('A1'), 0)).rejects.toMatchObject(away)
    await expect(a.ask(bytesOf('?'))).rejects.toMatchObject(away)
    expect(Date.now() - since_ms).toBeLessThan(6 * 3 * PATIENCE_ms)
    await rig.clinic().up()
    await vi.waitFor(() => expect(a.state().kind).toBe('connected'), SOON)
    expect(words([(await a.last('draw-1'))!])).toEqual(['a'])
    await say(a, 'draw-1', ['b', 'c'], last)
    await vi.waitFor(() => expect(seen).toEqual(['a', 'b', 'c']), SOON)
    expect(told).toEqual({ rewound: 0, caughtUp: 2 })
  })

  it('waits for a hub that answers nothing only so long', async () => {
    const a = await rig.join('A1')
    const last = await say(a, 'draw-1', ['a'])
    await rig.clinic().freeze()
    const since_ms = Date.now()
    const away = { fault: 'unreachable' }
    await expect(a.append('draw-1', 'entry', bytesOf('b'), last)).rejects.toMatchObject(away)
    await expect(a.read({}, 0)).rejects.toMatchObject(away)
    expect(Date.now() - since_ms).toBeLessThan(2 * 3 * PATIENCE_ms)
    await rig.clinic().thaw()
    // What was given up may have happened: the writer asks before it goes on.
    await vi.waitFor(async () => expect(await a.last('draw-1')).toBeDefined(), SOON)
    const stands = (await a.last('draw-1'))!
    if (text(stands.bytes) === 'a') await say(a, 'draw-1', ['b'], last)
    expect(words(await a.read({}, 0))).toEqual(['a', 'b'])
  })

  it('says so when the hub comes back from an old copy of its disk', async () => {
    const [a, b] = [await rig.join('A1'), await rig.join('B2')]
    const first = await say(a, 'draw-1', ['a', 'b'])
    const restore = await rig.clinic().copy()
    const last = await say(a, 'draw-1', ['c', 'd', 'e'], first)
    const seen: string[] = []
    b.watch({}, HUB_START, {
      entry: (entry) => seen.push(text(entry.bytes)),
      rewound: () => seen.push('rewound'),
    })
    await vi.waitFor(() => expect(seen).toHaveLength(5), SOON)
    await restore()
    await vi.waitFor(() => expect(a.state().kind).toBe('connected'), SOON)
    await vi.waitFor(async () => expect(await a.last('draw-1')).toBeDefined(), SOON)
    expect(await a.append('draw-1', 'entry', bytesOf('f'), last)).toEqual({ kind: 'stale' })
    const stands = (await a.last('draw-1'))!
    expect([stands.sequence, text(stands.bytes)]).toEqual([first, 'b'])
    // More than there was: the same places hold something else now.
    await say(a, 'draw-1', ['c', 'x', 'e', 'f'], first)
    const all = ['a', 'b', 'c', 'd', 'e', 'rewound', 'a', 'b', 'c', 'x', 'e', 'f']
    await vi.waitFor(() => expect(seen).toEqual(all), SOON)
  })

  it('carries a question to who answers, and says so when nobody does', async () => {
    const [a, b] = [await rig.join('A1'), await rig.join('B2')]
    await expect(a.ask(bytesOf('may I?'))).rejects.toMatchObject({ fault: 'noAnswer' })
    const stop = b.onAsk(async (bytes) => (text(bytes) === 'may I?' ? bytesOf('yes') : undefined))
    await vi.waitFor(async () => expect(text(await a.ask(bytesOf('may I?')))).toBe('yes'), SOON)
    const other = a.ask(bytesOf('who are you?'))
    await expect(other).rejects.toMatchObject({ fault: 'noAnswer' })
    stop()
    await expect(a.ask(bytesOf('may I?'))).rejects.toMatchObject({ fault: 'noAnswer' })
  })

  it('begins anew after a stop with the watchers of then, not with those of before', async () => {
    const [a, b] = [await rig.join('A1'), await rig.join('B2')]
    const seen: string[] = []
    b.watch({}, HUB_START, { entry: ({ bytes }) => seen.push(`old ${text(bytes)}`) })
    b.keys.watch('claim', ({ key }) => seen.push(key))
    await b.stop()
    const before = await say(a, 'draw-1', ['a'])
    await a.keys.put('claim/L1', bytesOf('A1'), 0)
    await connected(b)
    b.watch({}, HUB_START, { entry: ({ bytes }) => seen.push(text(bytes)) })
    await say(a, 'draw-1', ['b'], before)
    await vi.waitFor(() => expect(seen).toEqual(['a', 'b']), SOON)
  })
}
