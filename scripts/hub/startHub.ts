/**
 * `npm run hub:start [-- --config cluster.conf]`: starts the clinic's hub with `hub/hub.conf`, makes its streams when
 * they are missing, and stays until it is ended.
 */
import { spawn } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { parseArgs } from 'node:util'
import { jetstreamManager } from '@nats-io/jetstream'
import { jwtAuthenticator } from '@nats-io/nats-core'
import { connect } from '@nats-io/transport-node'
import { errorText } from '../../src/core/basics/errorText.ts'
import { setUpStreams } from './clinicStreams.ts'
import { findNatsServer, installNatsServer, NATS_NEEDED } from './natsServer.ts'

const { values } = parseArgs({
  options: {
    config: { type: 'string', default: 'hub.conf' },
    replicas: { type: 'string', default: '1' },
    port: { type: 'string', default: '4222' },
  },
})
const folder = join(import.meta.dirname, '..', '..', 'hub')
const fail = (why: string): never => {
  console.error(why)
  process.exit(1)
}
if (!existsSync(join(folder, 'keys', 'auth.conf'))) {
  fail('There are no keys yet: npm run hub:keys -- --clinic NAME --host NAME')
}
const server = findNatsServer() ?? installNatsServer() ?? fail(NATS_NEEDED)
console.log(`nats-server ${server.version}: ${server.path}`)
const child = spawn(server.path, ['-c', values.config], { cwd: folder, stdio: 'inherit' })
child.on('exit', (code) => process.exit(code ?? 1))
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => child.kill(signal))

interface Admin {
  readonly clinic: string
  readonly jwt: string
  readonly seed: string
}
const admin = JSON.parse(readFileSync(join(folder, 'keys', 'admin.json'), 'utf8')) as Admin
for (let tries = 0; ; tries++) {
  try {
    const connection = await connect({
      servers: `127.0.0.1:${values.port}`,
      authenticator: jwtAuthenticator(admin.jwt, new TextEncoder().encode(admin.seed)),
      tls: { caFile: join(folder, 'keys', 'authority.pem') },
      reconnect: false,
    })
    const manager = await jetstreamManager(connection, { checkAPI: false })
    const made = await setUpStreams(manager, admin.clinic, Number(values.replicas))
    await connection.close()
    console.log(made.length > 0 ? `Made ${made.join(' and ')}.` : 'The streams are there.')
    break
  } catch (error) {
    if (tries > 60) fail(`The streams were not made: ${errorText(error)}`)
    await sleep(500)
  }
}
