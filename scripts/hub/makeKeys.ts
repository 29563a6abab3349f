/**
 * `npm run hub:keys -- --clinic NAME --host NAME [--host NAME ...] [--days 365]`: makes what a clinic's hub is closed
 * with, in `hub/keys`. Nothing that is there is overwritten.
 */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { newDeviceKey, signPass } from '../../src/adapters/hub/nats/passes.ts'
import { isHubName } from '../../src/core/hub/hubNames.ts'
import { hubSiteText, isHubAddress } from '../../src/core/hub/hubSite.ts'
import { makeAuthority, makeServerCertificate } from './certificates.ts'
import { authConf, DAY_s, makeClinicKeys } from './clinicKeys.ts'

const { values } = parseArgs({
  options: {
    clinic: { type: 'string' },
    host: { type: 'string', multiple: true },
    days: { type: 'string', default: '365' },
    out: { type: 'string', default: join(import.meta.dirname, '..', '..', 'hub', 'keys') },
  },
})
const fail = (why: string): never => {
  console.error(why)
  process.exit(1)
}
const clinic = values.clinic ?? fail('Say which clinic: --clinic NAME')
if (!isHubName(clinic)) fail('A name of a clinic has 1 to 100 characters.')
const days = Number(values.days)
if (!(days >= 1 && days <= 3650)) fail('--days takes 1 to 3650.')
const out = values.out
if (existsSync(join(out, 'auth.conf'))) {
  fail(
    `${out} has keys already. Move them away first: with new ones every device has to join again.`,
  )
}

/** Where `hub.conf` lets pages connect. */
const PAGES_PORT = 9222
const named = values.host ?? ['localhost']
const servers = named.map((host) => `wss://${host}:${PAGES_PORT}`)
for (const server of servers) if (!isHubAddress(server)) fail(`${server} is no address of a hub.`)

const now_ms = Date.now()
const until_s = Math.floor(now_ms / 1000) + days * DAY_s
const hosts = [...new Set(['localhost', '127.0.0.1', ...named])]
const keys = await makeClinicKeys(clinic, Math.floor(now_ms / 1000), days * DAY_s)
const [from, until] = [new Date(now_ms - 3_600_000), new Date(until_s * 1000)]
const authority = await makeAuthority(clinic, from, new Date(now_ms + 3650 * DAY_s * 1000))
const server = await makeServerCertificate(authority, hosts, from, until)
const desk = newDeviceKey()
const deskJwt = await signPass(keys.signing, {
  role: 'desk',
  name: 'desk',
  publicKey: desk.publicKey,
  until_s,
})

mkdirSync(out, { recursive: true, mode: 0o700 })
const secret = { mode: 0o600, flag: 'wx' } as const
const write = (name: string, text: string): void => writeFileSync(join(out, name), text, secret)
const json = (value: unknown): string => `${JSON.stringify(value, undefined, 2)}\n`
write('auth.conf', authConf(keys))
write('authority.pem', authority.certificate)
write('authority.key', authority.key)
write('server.pem', server.certificate)
write('server.key', server.key)
write('admin.json', json({ clinic, ...keys.admin }))
write(
  'desk.json',
  json({
    ...{ clinic, device: 'desk', jwt: deskJwt, seed: desk.seed, joiningJwt: keys.joiningJwt },
    signing: keys.signing,
    cutOff: { account: keys.account, operatorSeed: keys.operatorSeed, system: keys.system },
  }),
)
write('hub.json', hubSiteText({ clinic, servers, joiningJwt: keys.joiningJwt }))
console.log(`Keys of ${clinic} are in ${out}.
The server answers to ${hosts.join(', ')} until ${until.toISOString().slice(0, 10)}.
hub.json       goes beside the app, as site/hub.json, before it is built: it names ${servers.join(', ')}
authority.pem  goes to every device, which has to trust it
desk.json      goes to the first desk device, and then into a safe: it lets devices in and cuts them off
authority.key  into a safe; needed when server.pem runs out
admin.json     stays with the hub`)
