import { setTimeout as sleep } from 'node:timers/promises'
import { jetstreamManager } from '@nats-io/jetstream'
import { connect } from '@nats-io/transport-node'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { bytesOf, connected, placeOf } from '../../../support/hubRig.ts'
import {
  freePort,
  NATS_SERVER,
  natsProcess,
  type NatsProcess,
} from '../../../support/natsProcess.ts'
import { natsHub, plainServer, setUp } from '../../../support/natsRig.ts'
import { WIDE } from '../../../support/wide.ts'

/** The servers as `hub/leaf.conf` and `hub/region.conf` join them, without certificates and passes. */
describe.skipIf(!NATS_SERVER || !WIDE)('a region that takes from two clinics', () => {
  const servers: NatsProcess[] = []
  const hubs: Awaited<ReturnType<typeof connected>>[] = []
  afterEach(async () => {
    await Promise.all(hubs.splice(0).map((hub) => hub.stop()))
    await Promise.all(servers.splice(0).map((server) => server.remove()))
  })

  it('has every entry of both, in their order, also after it was away; clinics go on without it', async () => {
    const leaves = await freePort()
    const named = (name: string, more: string) => (port: number, store: string) =>
      `server_name: ${name}\n${plainServer(port, store).replace('sync_interval', `domain: ${name}, sync_interval`)}${more}\n`
    const region = await natsProcess(named('region', `leafnodes { listen: "127.0.0.1:${leaves}" }`))
    const remote = `leafnodes { reconnect: 1, remotes: [ { url: "nats://127.0.0.1:${leaves}" } ] }`
    const clinics = [await natsProcess(named('c1', remote)), await natsProcess(named('c2', remote))]
    servers.push(region, ...clinics)
    await Promise.all(servers.map((server) => server.start()))
    const writers = await Promise.all(
      clinics.map(async ({ port }, i) => {
        await setUp(port, 1, `Clinic ${i}`)
        const hub = await connected(natsHub('D7', port, 5000, `Clinic ${i}`))
        hubs.push(hub)
        return hub
      }),
    )
    let written = 0
    const write = async (clinic: number, n: number): Promise<void> => {
      let behind = (await writers[clinic]!.last('draw-1'))?.sequence ?? 0
      for (let i = 0; i < n; i++) {
        const words = bytesOf(`clinic ${clinic} entry ${i}`)
        behind = placeOf(await writers[clinic]!.append('draw-1', 'entry', words, behind))
      }
      written += n
    }
    const there = async (): Promise<number> => {
      const connection = await connect({ servers: `127.0.0.1:${region.port}` })
      const manager = await jetstreamManager(connection, { checkAPI: false })
      const { state } = await manager.streams.info('REGION')
      await connection.close()
      return state.messages
    }
    const connection = await connect({ servers: `127.0.0.1:${region.port}` })
    const manager = await jetstreamManager(connection, { checkAPI: false })
    await manager.streams.add({
      name: 'REGION',
      sources: ['c1', 'c2'].map((name) => ({
        name: 'CLINIC',
        external: { api: `$JS.${name}.API`, deliver: '' },
      })),
      deny_delete: true,
      deny_purge: true,
    })
    await connection.close()
    const whole = { timeout: 120_000, interval: 250 }
    await Promise.all([write(0, 60), write(1, 60)])
    // The same key at both: over the lines to the region neither comes to the other.
    for (const hub of writers) {
      expect(await hub.keys.put('claim/L1', bytesOf('D7'), 0)).toMatchObject({ kind: 'stored' })
    }
    await vi.waitFor(async () => expect(await there()).toBe(written), whole)
    await region.kill()
    await Promise.all([write(0, 80), write(1, 40)])
    await sleep(500)
    await region.start()
    const since_ms = performance.now()
    await vi.waitFor(async () => expect(await there()).toBe(written), whole)
    console.log(
      `${written} entries at the region ${Math.round(performance.now() - since_ms)} ms after it was back`,
    )

    const last = await connect({ servers: `127.0.0.1:${region.port}` })
    const reading = await jetstreamManager(last, { checkAPI: false })
    const next = new Map<string, number>()
    for (let seq = 1; seq <= written; seq++) {
      const message = await reading.streams.getMessage('REGION', { seq })
      // Which stream it came from and its number there: each clinic's without a gap, from 1.
      const origin = message?.header.get('Nats-Stream-Source').split(' ') ?? []
      const of = `${message?.string().slice(0, 8)}`
      expect(Number(origin[1])).toBe((next.get(of) ?? 0) + 1)
      next.set(of, Number(origin[1]))
    }
    expect([...next].sort()).toEqual([
      ['clinic 0', 140],
      ['clinic 1', 100],
    ])
    await last.close()
  }, 400_000)
})
