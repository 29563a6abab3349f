import { spawnSync } from 'node:child_process'
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { authConf, makeClinicKeys } from '../../../../scripts/hub/clinicKeys.ts'
import { certificateOf, inHours } from '../../../support/closedHub.ts'
import { NATS_SERVER } from '../../../support/natsProcess.ts'

const HUB = join(import.meta.dirname, '..', '..', '..', '..', 'hub')
/** What each file asks for beside the keys, as its first lines say. */
const VALUES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'hub.conf': {},
  'cluster.conf': {
    HUB_NODE: 'a',
    HUB_ROUTES: '[nats-route://a.clinic.example:6222, nats-route://b.clinic.example:6222]',
  },
  'leaf.conf': { HUB_CLINIC: 'c1', HUB_REGION: 'tls://region.example:7422' },
  'region.conf': {},
}

/** The server reads each file with certificates and passes as `hub:keys` makes them, and says what it does not take. */
describe.skipIf(!NATS_SERVER)('the configurations of the hub', () => {
  let folder: string
  let account: string

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'stillhand-hub-'))
    for (const file of Object.keys(VALUES)) cpSync(join(HUB, file), join(folder, file))
    const write = (name: string, text: string): void =>
      writeFileSync(join(folder, 'keys', name), text)
    mkdirSync(join(folder, 'keys'))
    const keys = await makeClinicKeys('Demo clinic', Math.floor(Date.now() / 1000))
    account = keys.account
    const { authority, server } = await certificateOf('Demo clinic', inHours(-1), inHours(1))
    write('auth.conf', authConf(keys))
    write('authority.pem', authority.certificate)
    write('region.pem', authority.certificate)
    write('server.pem', server.certificate)
    write('server.key', server.key)
  }, 60_000)
  afterAll(() => rmSync(folder, { recursive: true, force: true }))

  const read = (file: string) =>
    spawnSync(NATS_SERVER?.path ?? '', ['-t', '-c', file], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, HUB_ACCOUNT: account, ...VALUES[file] },
    })

  it.each(Object.keys(VALUES))('%s is taken by the server', (file) => {
    const { status, stderr, stdout } = read(file)
    expect(`${stdout}${stderr}`).toMatch(/is valid/)
    expect(status).toBe(0)
  })

  it('a file with a word that the server does not know is refused', () => {
    writeFileSync(join(folder, 'wrong.conf'), 'include "hub.conf"\nno_such_word: 1\n')
    expect(read('wrong.conf').status).not.toBe(0)
  })
})
