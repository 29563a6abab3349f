/**
 * `npm run hub:region -- --name NAME --host NAME --clinic LEAF [--clinic LEAF ...]`: makes what a region is closed
 * with, in `hub/region`, and a pass for each clinic. Called again it makes passes for further clinics with the same
 * keys.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { makeAuthority, makeServerCertificate } from './certificates.ts'
import { DAY_s } from './clinicKeys.ts'
import { isLeafName, leafCreds, makeRegionKeys, type RegionKit } from './regionKeys.ts'

const { values } = parseArgs({
  options: {
    name: { type: 'string', default: 'Region' },
    host: { type: 'string', multiple: true, default: [] },
    clinic: { type: 'string', multiple: true, default: [] },
    days: { type: 'string', default: '365' },
    out: { type: 'string', default: join(import.meta.dirname, '..', '..', 'hub', 'region') },
  },
})
const fail = (why: string): never => {
  console.error(why)
  process.exit(1)
}
const days = Number(values.days)
if (!(days >= 1 && days <= 3650)) fail('--days takes 1 to 3650.')
if (values.clinic.length === 0) fail('Say which clinics: --clinic NAME, the HUB_CLINIC of each.')
for (const leaf of values.clinic) {
  if (!isLeafName(leaf)) fail(`${leaf}: letters, digits, _ and - only.`)
}
const out = values.out
mkdirSync(out, { recursive: true, mode: 0o700 })
const write = (name: string, text: string): void =>
  writeFileSync(join(out, name), text, { mode: 0o600, flag: 'wx' })
const until = new Date(Date.now() + days * DAY_s * 1000)

if (!existsSync(join(out, 'region.json'))) {
  if (values.host.length === 0) fail('Say where the region is: --host NAME')
  const from = new Date(Date.now() - 3_600_000)
  const long = new Date(Date.now() + 3650 * DAY_s * 1000)
  const authority = await makeAuthority(values.name, from, long)
  const hosts = ['localhost', '127.0.0.1', ...values.host]
  const server = await makeServerCertificate(authority, hosts, from, until)
  const keys = await makeRegionKeys(values.name)
  write('auth.conf', keys.authConf)
  write('server.pem', server.certificate)
  write('server.key', server.key)
  write('region.pem', authority.certificate)
  write('authority.key', authority.key)
  write('admin.json', `${JSON.stringify(keys.admin, undefined, 2)}\n`)
  write('region.json', `${JSON.stringify(keys.kit, undefined, 2)}\n`)
  console.log(`Keys of ${values.name} are in ${out}. At the region they stand as hub/keys.`)
}
const kit = JSON.parse(readFileSync(join(out, 'region.json'), 'utf8')) as RegionKit
for (const leaf of values.clinic) {
  const name = `${leaf}.creds`
  if (existsSync(join(out, name))) fail(`${name} is there already. Move it away first.`)
  write(name, await leafCreds(kit, leaf, Math.floor(until.getTime() / 1000)))
  console.log(
    `${name}: to ${leaf}, as hub/keys/region.creds, with region.pem as hub/keys/region.pem`,
  )
}
