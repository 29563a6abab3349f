import { setTimeout as sleep } from 'node:timers/promises'
import { afterEach, describe, expect, it } from 'vitest'
import type { Hub } from '../../../../src/ports/hub.ts'
import { bytesOf, connected } from '../../../support/hubRig.ts'
import { faultsAt, sendLog } from '../../../support/hubTablet.ts'
import {
  freePort,
  NATS_SERVER,
  natsProcess,
  type NatsProcess,
} from '../../../support/natsProcess.ts'
import { natsHub, plainServer, setUp } from '../../../support/natsRig.ts'
import { WIDE } from '../../../support/wide.ts'

const PATIENCE_ms = 2000

describe.skipIf(!NATS_SERVER)('a hub that is killed with -9', () => {
  const hubs: Hub[] = []
  const servers: NatsProcess[] = []
  afterEach(async () => {
    await Promise.all(hubs.splice(0).map((hub) => hub.stop()))
    await Promise.all(servers.splice(0).map((server) => server.remove()))
  }, 60_000)

  /** So many tablets, each with a log that grows by an entry every few milliseconds until `end`. */
  const tablets = async (n: number, ports: readonly number[], every_ms: number) => {
    const logs = new Map<string, string[]>()
    let isOver = false
    const sending = Array.from({ length: n }, async (_, i) => {
      const hub = natsHub(
        `T${i}`,
        [...ports.slice(i % ports.length), ...ports.slice(0, i % ports.length)],
        PATIENCE_ms,
      )
      hubs.push(hub)
      hub.start()
      const words: string[] = []
      logs.set(`draw-T${i}`, words)
      const writing = (async () => {
        while (!isOver) {
          words.push(`T${i} ${words.length + 1}`)
          await sleep(every_ms)
        }
      })()
      const told = await sendLog(
        hub,
        `draw-T${i}`,
        () => words,
        () => isOver,
      )
      await writing
      return told
    })
    return {
      logs,
      end: async () => {
        isOver = true
        return Promise.all(sending)
      },
    }
  }
  const reader = async (ports: readonly number[]): Promise<Hub> => {
    const hub = natsHub('reader', ports, PATIENCE_ms)
    hubs.push(hub)
    return connected(hub)
  }

  it('in mid-stream twice, then comes back from an old copy: nothing is lost, doubled or turned round', async () => {
    const server = await natsProcess(plainServer)
    servers.push(server)
    await server.start()
    await setUp(server.port, 1)
    const { logs, end } = await tablets(10, [server.port], 30)
    for (let times = 0; times < 2; times++) {
      await sleep(600)
      await server.kill()
      await sleep(300)
      await server.start()
    }
    await sleep(500)
    const putBack = await server.copyDisk()
    await sleep(500)
    await server.kill()
    putBack()
    await server.start()
    await sleep(500)
    const told = await end()
    const { entries, faults } = await faultsAt(await reader([server.port]), logs)
    const sum = (of: 'retried' | 'found' | 'rewound') => told.reduce((n, one) => n + one[of], 0)
    console.log(
      `${entries} entries of 10 tablets; ${sum('retried')} tried again, ${sum('found')} found as their own,`,
      `${sum('rewound')} logs gone through again; longest wait ${Math.round(Math.max(...told.map(({ longest_ms }) => longest_ms)))} ms`,
    )
    expect(faults).toEqual([])
    expect(entries).toBeGreaterThan(100)
    expect(sum('rewound')).toBeGreaterThan(0)
  }, 180_000)

  it.skipIf(!WIDE)(
    'each of three nodes, two, and all: nothing is lost, doubled or turned round',
    async () => {
      const nodes = await Promise.all(
        [1, 2, 3].map(async (n) => ({ n, port: await freePort(), route: await freePort() })),
      )
      const routes = nodes.map(({ route }) => `nats-route://127.0.0.1:${route}`).join(', ')
      for (const { n, port, route } of nodes) {
        const cluster = `cluster { name: clinic, listen: "127.0.0.1:${route}", routes: [${routes}] }`
        const text = (own: number, store: string) =>
          `server_name: n${n}\n${plainServer(own, store)}${cluster}\n`
        servers.push(await natsProcess(text, { port }))
      }
      await Promise.all(servers.map((server) => server.start()))
      const ports = nodes.map(({ port }) => port)
      for (let tries = 0; ; tries++) {
        const made = await setUp(ports[0]!, 3).then(
          () => true,
          () => false,
        )
        if (made) break
        if (tries > 60) throw new Error('No leader')
        await sleep(500)
      }
      // Two devices, each at another node, on one log: of every two one is stored.
      const [one, two] = [await reader([ports[0]!]), await reader([ports[1]!])]
      for (let round = 0, behind = 0; round < 100; round++) {
        const both = await Promise.all(
          [one, two].map((hub, i) =>
            hub.append('shared', 'entry', bytesOf(`${round} by ${i}`), behind),
          ),
        )
        expect(both.map(({ kind }) => kind).sort()).toEqual(['stale', 'stored'])
        behind = both.flatMap((outcome) =>
          outcome.kind === 'stored' ? [outcome.sequence] : [],
        )[0]!
      }
      expect(await one.read({ log: 'shared' }, 0)).toHaveLength(100)
      const { logs, end } = await tablets(30, ports, 200)
      await sleep(3000)
      for (const who of [[0], [1], [2], [0, 1], [0, 1, 2]]) {
        await Promise.all(who.map((i) => servers[i]!.kill()))
        await sleep(4000)
        await Promise.all(who.map((i) => servers[i]!.start()))
        await sleep(8000)
      }
      const told = await end()
      const { entries, faults } = await faultsAt(await reader(ports), logs)
      const longest_ms = Math.max(...told.map((one) => one.longest_ms))
      console.log(
        `${entries} entries of 30 tablets at three nodes; longest wait ${Math.round(longest_ms)} ms`,
      )
      expect(faults).toEqual([])
      for (const { port } of nodes) {
        expect((await faultsAt(await reader([port]), logs)).faults).toEqual([])
      }
    },
    400_000,
  )
})
