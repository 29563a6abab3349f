import { jetstreamManager } from '@nats-io/jetstream'
import type { NatsConnection } from '@nats-io/nats-core'
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest'
import { cutOff } from '../../../../src/adapters/hub/nats/cutOff.ts'
import { readPass } from '../../../../src/adapters/hub/nats/passes.ts'
import { JOINING } from '../../../../src/adapters/hub/nats/rights.ts'
import { entrySubject } from '../../../../src/adapters/hub/nats/subjects.ts'
import { HUB_START } from '../../../../src/core/hub/hubEntry.ts'
import type { Hub } from '../../../../src/ports/hub.ts'
import {
  certificateOf,
  CLOSED_CLINIC,
  closedHub,
  inHours,
  type ClosedHub,
} from '../../../support/closedHub.ts'
import { bytesOf, connected, say, SOON, text } from '../../../support/hubRig.ts'
import { NATS_SERVER } from '../../../support/natsProcess.ts'

const REFUSED = { fault: 'refused' }

describe.skipIf(!NATS_SERVER)('the rights of devices at a hub as the project sets it up', () => {
  let closed: ClosedHub
  const hubs: Hub[] = []
  const connections: NatsConnection[] = []
  const join = (hub: Hub): Promise<Hub> => {
    hubs.push(hub)
    return connected(hub)
  }
  const refusedAs = async (hub: Hub, why: string): Promise<void> => {
    hubs.push(hub)
    hub.start()
    await vi.waitFor(() => expect(hub.state()).toMatchObject({ kind: 'refused', why }), SOON)
    await expect(hub.last('draw-1')).rejects.toMatchObject({ fault: 'unreachable' })
  }
  beforeAll(async () => {
    closed = await closedHub()
  }, 60_000)
  afterEach(async () => {
    await Promise.all(hubs.splice(0).map((hub) => hub.stop()))
    await Promise.all(connections.splice(0).map((one) => one.close()))
  })
  afterAll(() => closed.server.remove())

  it('let a device write its own entries, read all, and claim', async () => {
    const a = await join(closed.hub('A 1', await closed.pass('device', 'A 1')))
    const b = await join(closed.hub('B2', await closed.pass('device', 'B2')))
    const last = await say(a, 'draw-own', ['a', 'b'])
    const seen: string[] = []
    b.watch({}, HUB_START, { entry: ({ bytes }) => seen.push(text(bytes)) })
    await vi.waitFor(() => expect(seen).toEqual(['a', 'b']), SOON)
    await b.append('draw-own', 'writer', bytesOf('mine'), last)
    expect(await a.read({ log: 'draw-own' }, 0)).toHaveLength(3)
    expect(await a.keys.put('claim/L1', bytesOf('A 1'), 0)).toMatchObject({ kind: 'stored' })
    expect(await b.keys.put('claim/L1', bytesOf('B2'), 0)).toMatchObject({ kind: 'stale' })
    await expect(a.keys.put('site/limits', bytesOf('x'), 0)).rejects.toMatchObject(REFUSED)
  })

  it('refuse a device everything else', async () => {
    const pass = await closed.pass('device', 'A 1')
    const a = await join(closed.hub('A 1', pass))
    await say(a, 'draw-mine', ['a'])
    // The same pass under another name: the server holds it to its own.
    const forged = await join(closed.hub('B2', pass, { inboxPrefix: '_INBOX.A_201' }))
    await expect(forged.append('draw-x', 'entry', bytesOf('x'), 0)).rejects.toMatchObject(REFUSED)
    const wire = await closed.open('A 1', pass)
    connections.push(wire)
    const foreign = [
      entrySubject('Other clinic', 'draw-1', 'A 1', 'entry'),
      entrySubject(CLOSED_CLINIC, 'draw-1', 'B2', 'writer'),
      `${entrySubject(CLOSED_CLINIC, 'draw-1', 'A 1', 'entry')}.more`,
      'anything',
    ]
    for (const subject of foreign) {
      await expect(wire.request(subject, 'x', { timeout: 2000 }), subject).rejects.toThrow(
        /permission/i,
      )
    }
    const manager = await jetstreamManager(wire, { checkAPI: false, timeout: 2000 })
    const { streams, consumers } = manager
    const acts = [
      () => streams.deleteMessage('CLINIC', 1),
      () => streams.purge('CLINIC'),
      () => streams.delete('CLINIC'),
      () => streams.update('CLINIC', { deny_delete: false }),
      () => streams.add({ name: 'MINE', subjects: ['mine'] }),
      () => streams.delete('KV_SITE'),
      () => consumers.add('MINE', { durable_name: 'x' }),
    ]
    for (const act of acts) await expect(act()).rejects.toThrow(/permission/i)
    expect(await a.read({ log: 'draw-mine' }, 0)).toHaveLength(1)
    const errors: string[] = []
    const listened = (error: Error | null): void => {
      if (error) errors.push(error.message)
    }
    wire.subscribe('_INBOX.B2.>', { callback: listened })
    wire.subscribe('log.>', { callback: listened })
    await vi.waitFor(() => expect(errors).toHaveLength(2), SOON)
  })

  it('let nobody take an entry away, the administrator included', async () => {
    const a = await join(closed.hub('A 1', await closed.pass('device', 'A 1')))
    const last = await say(a, 'draw-kept', ['a', 'b'])
    const wire = await closed.open('admin', closed.keys.admin)
    connections.push(wire)
    const { streams } = await jetstreamManager(wire, { checkAPI: false })
    await expect(streams.deleteMessage('CLINIC', last)).rejects.toMatchObject({ code: 10057 })
    await expect(streams.purge('CLINIC')).rejects.toMatchObject({ code: 10110 })
    await expect(streams.update('CLINIC', { deny_delete: false })).rejects.toThrow()
    expect(await a.read({ log: 'draw-kept' }, 0)).toHaveLength(2)
  })

  it('let a reader look on and nothing else', async () => {
    const a = await join(closed.hub('A 1', await closed.pass('device', 'A 1')))
    const board = await join(closed.hub('board', await closed.pass('reader', 'board')))
    await say(a, 'draw-shown', ['a'])
    expect(await board.read({ log: 'draw-shown' }, 0)).toHaveLength(1)
    await expect(board.append('d', 'entry', bytesOf('x'), 0)).rejects.toMatchObject(REFUSED)
    await expect(board.keys.put('claim/9', bytesOf('x'), 0)).rejects.toMatchObject(REFUSED)
  })

  it('let a stranger with the joining pass ask a desk, and nothing else', async () => {
    const desk = await join(closed.hub('desk', await closed.pass('desk', 'desk')))
    const device = await join(closed.hub('A 1', await closed.pass('device', 'A 1')))
    desk.onAsk(async (bytes) => bytesOf(`${text(bytes)}: come in`))
    expect(await desk.keys.put('site/limits', bytesOf('1'), 0)).toMatchObject({ kind: 'stored' })
    const bearer = { jwt: closed.keys.joiningJwt, seed: (await closed.pass('joining', '')).seed }
    const stranger = await join(closed.hub(JOINING, bearer))
    await vi.waitFor(async () => {
      expect(text(await stranger.ask(bytesOf('new')))).toBe('new: come in')
    }, SOON)
    await expect(stranger.read({}, 0)).rejects.toMatchObject(REFUSED)
    await expect(stranger.append('d', 'entry', bytesOf('x'), 0)).rejects.toMatchObject(REFUSED)
    await expect(stranger.keys.get('claim/L1')).rejects.toMatchObject(REFUSED)
    // A device that is no desk does not even hear the question.
    const heard = vi.fn(async () => bytesOf('no'))
    device.onAsk(heard)
    expect(text(await stranger.ask(bytesOf('again')))).toBe('again: come in')
    expect(heard).not.toHaveBeenCalled()
  })

  it('turn away who has no pass, a made-up one, one that has run out', async () => {
    await refusedAs(closed.hub('A 1'), 'credentials')
    const [mine, other] = [await closed.pass('device', 'A 1'), await closed.pass('device', 'B2')]
    await refusedAs(closed.hub('A 1', { jwt: mine.jwt, seed: other.seed }), 'credentials')
    const stale = await closed.pass('device', 'A 1', Math.floor(Date.now() / 1000) - 60)
    await refusedAs(closed.hub('A 1', stale), 'credentials')
    expect(readPass(stale.jwt)).toMatchObject({ name: 'A 1', publicKey: stale.publicKey })
    expect(readPass(`${stale.jwt.slice(0, -4)}AAAA`)).toBeUndefined()
  })

  it('end a pass that runs out while it is in use', async () => {
    const soon = await closed.pass('device', 'A 1', Math.floor(Date.now() / 1000) + 4)
    const hub = await join(closed.hub('A 1', soon))
    await vi.waitFor(
      () => expect(hub.state()).toMatchObject({ kind: 'refused', why: 'expired' }),
      SOON,
    )
  })

  it('do not trust a server of another authority, nor one whose certificate has run out', async () => {
    const pass = await closed.pass('device', 'A 1')
    const other = await certificateOf('Other', inHours(-1), inHours(1))
    const ca = other.authority.certificate
    await refusedAs(closed.hub('A 1', pass, { tls: { ca } }), 'certificate')
    const stale = await certificateOf(CLOSED_CLINIC, inHours(-48), inHours(-24))
    await closed.setCertificate(stale.server, stale.authority.certificate)
    await refusedAs(closed.hub('A 1', pass), 'certificate')
    const whole = await certificateOf(CLOSED_CLINIC, inHours(-1), inHours(1))
    await closed.setCertificate(whole.server, whole.authority.certificate)
    await join(closed.hub('A 1', pass))
  })

  it('cut one device off in one act, at once and for good, and nobody else', async () => {
    const [lost, kept] = [await closed.pass('device', 'A 1'), await closed.pass('device', 'B2')]
    const a = await join(closed.hub('A 1', lost))
    const b = await join(closed.hub('B2', kept))
    const system = await closed.open('system', closed.keys.system)
    connections.push(system)
    const since_ms = performance.now()
    const kit = { account: closed.keys.account, operatorSeed: closed.keys.operatorSeed }
    const now_s = Math.floor(Date.now() / 1000)
    expect(await cutOff(system, kit, [lost.publicKey], now_s, 4000)).toBe(1)
    const revoked = { kind: 'refused', why: 'revoked' }
    await vi.waitFor(() => expect(a.state()).toMatchObject(revoked), { ...SOON, interval: 2 })
    console.log(`cut off after ${Math.round(performance.now() - since_ms)} ms`)
    expect(performance.now() - since_ms).toBeLessThan(5000)
    expect(await b.last('draw-1')).toBeUndefined()
    expect(b.state().kind).toBe('connected')
    // Also after the server has started anew.
    await closed.server.kill()
    await closed.server.start()
    await refusedAs(closed.hub('A 1', lost), 'credentials')
    await vi.waitFor(() => expect(b.state().kind).toBe('connected'), SOON)
  })
})
