import { spawn, type ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { jetstreamManager } from '@nats-io/jetstream'
import { jwtAuthenticator, type NatsConnection } from '@nats-io/nats-core'
import { connect } from '@nats-io/transport-node'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { makeAuthority, makeServerCertificate } from '../../../../scripts/hub/certificates.ts'
import { authConf, makeClinicKeys, type HubPassFile } from '../../../../scripts/hub/clinicKeys.ts'
import { setUpStreams } from '../../../../scripts/hub/clinicStreams.ts'
import { leafCreds, makeRegionKeys } from '../../../../scripts/hub/regionKeys.ts'
import { dialOptions } from '../../../../src/adapters/hub/nats/dialOptions.ts'
import { createNatsHub } from '../../../../src/adapters/hub/nats/natsHub.ts'
import { newDeviceKey, signPass } from '../../../../src/adapters/hub/nats/passes.ts'
import { createSystemClock } from '../../../../src/adapters/time/systemClock.ts'
import type { Hub } from '../../../../src/ports/hub.ts'
import { inHours } from '../../../support/closedHub.ts'
import { bytesOf, connected, placeOf } from '../../../support/hubRig.ts'
import { freePort, NATS_SERVER } from '../../../support/natsProcess.ts'
import { WIDE } from '../../../support/wide.ts'

const HUB = join(import.meta.dirname, '..', '..', '..', '..', 'hub')
const clock = createSystemClock('boot')
const WHOLE = { timeout: 60_000, interval: 250 }
const in_s = (hours: number): number => Math.floor(inHours(hours).getTime() / 1000)

interface Node {
  readonly folder: string
  readonly port: number
  readonly ca: string
}

/** The project's own configurations, started with certificates and passes; only ports and addresses are of the test. */
describe.skipIf(!NATS_SERVER || !WIDE)('the configurations of the hub, run for real', () => {
  const children: ChildProcess[] = []
  const folders: string[] = []
  const hubs: Hub[] = []
  const connections: NatsConnection[] = []
  afterEach(async () => {
    await Promise.all(hubs.splice(0).map((hub) => hub.stop()))
    await Promise.all(connections.splice(0).map((each) => each.close()))
    for (const child of children.splice(0)) {
      if (child.exitCode !== null || child.signalCode !== null) continue
      child.kill('SIGKILL')
      await once(child, 'exit')
    }
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true })
  }, 60_000)

  /** Lays the files of `hub` beside the keys and starts one of them. */
  async function start(
    conf: string,
    keys: Readonly<Record<string, string>>,
    env: Readonly<Record<string, string>>,
    ports: Readonly<Record<string, number>> = {},
  ): Promise<Node> {
    const folder = mkdtempSync(join(tmpdir(), 'stillhand-closed-'))
    folders.push(folder)
    mkdirSync(join(folder, 'keys'))
    const port = await freePort()
    const web = await freePort()
    const at: Readonly<Record<string, number>> = { 4222: port, 9222: web, ...ports }
    for (const name of ['hub.conf', 'cluster.conf', 'leaf.conf', 'region.conf']) {
      const text = readFileSync(join(HUB, name), 'utf8').replace(
        /0\.0\.0\.0:(\d+)/g,
        (whole, asked: string) => `127.0.0.1:${at[asked] ?? whole}`,
      )
      writeFileSync(join(folder, name), text)
    }
    for (const [name, text] of Object.entries(keys)) writeFileSync(join(folder, 'keys', name), text)
    const child = spawn(NATS_SERVER?.path ?? '', ['-c', conf, '-l', 'log'], {
      cwd: folder,
      stdio: 'ignore',
      env: { ...process.env, ...env },
    })
    children.push(child)
    return { folder, port, ca: keys['authority.pem'] ?? keys['region.pem'] ?? '' }
  }
  const logOf = ({ folder }: Node): string => readFileSync(join(folder, 'log'), 'utf8')
  async function open({ port, ca }: Node, pass: HubPassFile, name = 'admin') {
    const connection = await vi.waitFor(
      () =>
        connect({
          ...dialOptions(name, 4000),
          servers: `127.0.0.1:${port}`,
          tls: { ca },
          authenticator: jwtAuthenticator(pass.jwt, new TextEncoder().encode(pass.seed)),
        }),
      WHOLE,
    )
    connections.push(connection)
    return connection
  }
  /** A device of a clinic, with a pass of its own. */
  async function device(
    nodes: readonly Node[],
    clinic: string,
    keys: Awaited<ReturnType<typeof makeClinicKeys>>,
  ) {
    // prettier-ignore
    const { publicKey, seed } = newDeviceKey()
    const jwt = await signPass(keys.signing, { role: 'device', name: 'D7', publicKey, until_s: in_s(1) }) // prettier-ignore
    const hub = createNatsHub({
      ...{ clinic, device: 'D7', clock, random: Math.random, patience_ms: 8000 },
      dial: (patience_ms) =>
        connect({
          ...dialOptions('D7', patience_ms),
          servers: nodes.map(({ port }) => `127.0.0.1:${port}`),
          tls: { ca: nodes[0]?.ca ?? '' },
          authenticator: jwtAuthenticator(jwt, new TextEncoder().encode(seed)),
        }),
    })
    hubs.push(hub)
    return connected(hub)
  }
  async function certified(name: string, file: string) {
    const authority = await makeAuthority(name, inHours(-1), inHours(10))
    const hosts = ['localhost', '127.0.0.1']
    const server = await makeServerCertificate(authority, hosts, inHours(-1), inHours(2))
    return { [file]: authority.certificate, 'server.pem': server.certificate, 'server.key': server.key } // prettier-ignore
  }
  const write = async (hub: Hub, n: number): Promise<void> => {
    let behind = 0
    for (let i = 0; i < n; i++) {
      behind = placeOf(await hub.append('draw-1', 'entry', bytesOf(`entry ${i}`), behind))
    }
  }

  it('three nodes of cluster.conf are one hub over TLS, and any one may fail', async () => {
    const keys = await makeClinicKeys('Demo clinic', in_s(0))
    const files = {
      ...(await certified('Demo clinic', 'authority.pem')),
      'auth.conf': authConf(keys),
    }
    const routes = [await freePort(), await freePort(), await freePort()]
    const HUB_ROUTES = `[${routes.map((port) => `"nats-route://127.0.0.1:${port}"`).join(', ')}]`
    const nodes: Node[] = []
    for (const [i, port] of routes.entries()) {
      nodes.push(
        await start('cluster.conf', files, { HUB_NODE: `n${i}`, HUB_ROUTES }, { 6222: port }),
      )
    }
    const [first] = nodes
    if (!first) throw new Error('No node')
    const admin = await open(first, keys.admin)
    const manager = await jetstreamManager(admin, { checkAPI: false, timeout: 10_000 })
    await vi
      .waitFor(() => setUpStreams(manager, 'Demo clinic', 3), WHOLE)
      .catch((error: unknown) => {
        throw new Error(nodes.map(logOf).join('\n').slice(-3000), { cause: error })
      })
    const hub = await device(nodes, 'Demo clinic', keys)
    await write(hub, 20)
    children[1]?.kill('SIGKILL')
    await vi.waitFor(async () => expect((await hub.read({}, 0)).length).toBe(20), WHOLE)
    const last = (await hub.last('draw-1'))?.sequence ?? 0
    await vi.waitFor(
      async () => placeOf(await hub.append('draw-1', 'entry', bytesOf('after'), last)),
      WHOLE,
    )
  }, 300_000)

  it('two leaves of leaf.conf hand on to region.conf over TLS with their passes, and neither hears the other', async () => {
    const region = await makeRegionKeys('Region')
    const certificates = await certified('Region', 'region.pem')
    const leaves = await freePort()
    const top = await start('region.conf', { ...certificates, 'auth.conf': region.authConf }, {}, { 7422: leaves }) // prettier-ignore
    const admin = await open(top, region.admin)
    const clinics: { leaf: string; node: Node; own: NatsConnection; hub: Hub }[] = []
    for (const leaf of ['c1', 'c2']) {
      const keys = await makeClinicKeys(`Clinic ${leaf}`, in_s(0))
      const files = {
        ...(await certified(leaf, 'authority.pem')),
        'auth.conf': authConf(keys),
        'region.creds': await leafCreds(region.kit, leaf, in_s(1)),
        'region.pem': certificates['region.pem'] ?? '',
      }
      const env = {
        HUB_CLINIC: leaf,
        HUB_REGION: `tls://127.0.0.1:${leaves}`,
        HUB_ACCOUNT: keys.account,
      }
      const node = await start('leaf.conf', files, env)
      const own = await open(node, keys.admin)
      const manager = await jetstreamManager(own, { checkAPI: false })
      await vi.waitFor(() => setUpStreams(manager, `Clinic ${leaf}`, 1), WHOLE)
      clinics.push({ leaf, node, own, hub: await device([node], `Clinic ${leaf}`, keys) })
    }
    const manager = await jetstreamManager(admin, { checkAPI: false })
    await manager.streams.add({
      name: 'REGION',
      sources: clinics.map(({ leaf }) => ({
        name: 'CLINIC',
        external: { api: `$JS.${leaf}.API`, deliver: '' },
      })),
    })
    await Promise.all(clinics.map(({ hub }) => write(hub, 30)))
    await vi
      .waitFor(async () => {
        expect((await manager.streams.info('REGION')).state.messages).toBe(60)
      }, WHOLE)
      .catch((error: unknown) => {
        throw new Error([top, ...clinics.map(({ node }) => node)].map(logOf).join('\n').slice(-3000), { cause: error }) // prettier-ignore
      })
    // What one clinic says or asks reaches neither the other nor the region.
    const [one, two] = clinics
    if (!one || !two) throw new Error('Two clinics')
    const heard: string[] = []
    for (const connection of [two.own, admin]) {
      connection.subscribe('gossip.>', { callback: (_, { subject }) => void heard.push(subject) })
      await connection.flush()
    }
    one.own.publish('gossip.c1', new Uint8Array([1]))
    await one.own.flush()
    await expect(one.own.request('$JS.c2.API.STREAM.INFO.CLINIC', '', { timeout: 1500 })).rejects.toThrow() // prettier-ignore
    expect(heard).toEqual([])
  }, 300_000)
})
