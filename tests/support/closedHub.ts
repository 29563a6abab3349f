import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { jetstreamManager } from '@nats-io/jetstream'
import { jwtAuthenticator, type ConnectionOptions, type NatsConnection } from '@nats-io/nats-core'
import { connect } from '@nats-io/transport-node'
import { makeAuthority, makeServerCertificate, type Pem } from '../../scripts/hub/certificates.ts'
import { authConf, DAY_s, makeClinicKeys, type ClinicKeys } from '../../scripts/hub/clinicKeys.ts'
import { setUpStreams } from '../../scripts/hub/clinicStreams.ts'
import { createNatsHub } from '../../src/adapters/hub/nats/natsHub.ts'
import { dialOptions } from '../../src/adapters/hub/nats/dialOptions.ts'
import { newDeviceKey, signPass } from '../../src/adapters/hub/nats/passes.ts'
import type { HubRole } from '../../src/adapters/hub/nats/rights.ts'
import { createSystemClock } from '../../src/adapters/time/systemClock.ts'
import type { Hub } from '../../src/ports/hub.ts'
import { freePort, natsProcess, type NatsProcess } from './natsProcess.ts'

const CONF = readFileSync(join(import.meta.dirname, '..', '..', 'hub', 'hub.conf'), 'utf8')
const clock = createSystemClock('boot')
export const CLOSED_CLINIC = 'Demo clinic'

export interface Pass {
  readonly jwt: string
  readonly seed: string
  readonly publicKey: string
}

/** The hub as the project's own configuration makes it: certificates, passes, accounts that can be changed. */
export interface ClosedHub {
  readonly server: NatsProcess
  readonly keys: ClinicKeys
  /** Where pages connect. */
  readonly web: number
  /** What its certificate says, PEM. */
  readonly certificate: string
  /** The text of the first desk's file. */
  readonly deskFile: string
  pass(role: HubRole, name: string, until_s?: number): Promise<Pass>
  /** A bare connection, for what the app itself would never ask. */
  open(
    name: string,
    pass: Pick<Pass, 'jwt' | 'seed'>,
    more?: ConnectionOptions,
  ): Promise<NatsConnection>
  hub(name: string, pass?: Pick<Pass, 'jwt' | 'seed'>, more?: ConnectionOptions): Hub
  /** Starts the server again with another certificate; devices trust that authority from now on. */
  setCertificate(pem: Pem, trusted: string): Promise<void>
}

const HOUR_ms = 3_600_000
export const inHours = (n: number): Date => new Date(Date.now() + n * HOUR_ms)

/** A certificate of an authority of its own. */
export async function certificateOf(clinic: string, from: Date, until: Date) {
  const authority = await makeAuthority(clinic, inHours(-1000), inHours(1000))
  const server = await makeServerCertificate(authority, ['localhost', '127.0.0.1'], from, until)
  return { authority, server }
}

/** @param change of the configuration, looked at with each start of the server */
export async function closedHub(change = (conf: string): string => conf): Promise<ClosedHub> {
  const now_s = Math.floor(Date.now() / 1000)
  const keys = await makeClinicKeys(CLOSED_CLINIC, now_s)
  const { authority, server: first } = await certificateOf(CLOSED_CLINIC, inHours(-1), inHours(1))
  const web = await freePort()
  const server = await natsProcess((port, store) =>
    change(CONF)
      .replaceAll('0.0.0.0:4222', `127.0.0.1:${port}`)
      .replaceAll('0.0.0.0:9222', `127.0.0.1:${web}`)
      .replaceAll('_file: "keys/', `_file: "${join(store, '..', 'keys')}/`)
      .replaceAll('"data', `"${store}`),
  )
  const folder = join(server.folder, 'keys')
  mkdirSync(folder)
  const write = (name: string, text: string): void => writeFileSync(join(folder, name), text)
  let trusted = authority.certificate
  const certify = (pem: Pem): void => {
    write('server.pem', pem.certificate)
    write('server.key', pem.key)
  }
  write('auth.conf', authConf(keys))
  certify(first)
  await server.start()

  const options = (pass: Pick<Pass, 'jwt' | 'seed'> | undefined): ConnectionOptions => ({
    servers: `127.0.0.1:${server.port}`,
    tls: { ca: trusted },
    ...(pass && {
      authenticator: jwtAuthenticator(pass.jwt, new TextEncoder().encode(pass.seed)),
    }),
  })
  const open: ClosedHub['open'] = (name, pass, more) =>
    connect({ ...dialOptions(name, 4000), ...options(pass), ...more })
  const admin = await open('admin', keys.admin)
  await setUpStreams(await jetstreamManager(admin, { checkAPI: false }), CLOSED_CLINIC, 1)
  await admin.close()

  return {
    server,
    keys,
    web,
    certificate: first.certificate,
    deskFile: JSON.stringify({
      clinic: CLOSED_CLINIC,
      signing: keys.signing,
      cutOff: { account: keys.account, operatorSeed: keys.operatorSeed, system: keys.system },
    }),
    async pass(role, name, until_s = now_s + DAY_s) {
      const { publicKey, seed } = newDeviceKey()
      const jwt = await signPass(keys.signing, { role, name, publicKey, until_s })
      return { jwt, seed, publicKey }
    },
    open,
    hub: (device, pass, more) =>
      createNatsHub({
        clinic: CLOSED_CLINIC,
        device,
        clock,
        random: Math.random,
        patience_ms: 3000,
        dial: (patience_ms) =>
          connect({ ...dialOptions(device, patience_ms), ...options(pass), ...more }),
      }),
    async setCertificate(pem, of) {
      await server.kill()
      certify(pem)
      trusted = of
      await server.start()
    },
  }
}
