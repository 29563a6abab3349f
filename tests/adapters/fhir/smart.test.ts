import 'fake-indexeddb/auto'
import * as jose from 'jose'
import * as oauth from 'oauth4webapi'
import { afterEach, describe, expect, it } from 'vitest'
import { createBrowserServerKey } from '../../../src/adapters/crypto/serverKey.ts'
import { createFetchRecordServer } from '../../../src/adapters/fhir/fetchRecordServer.ts'
import { accessFaultOf } from '../../../src/adapters/fhir/smart/authorization.ts'
import { createBackendAccess } from '../../../src/adapters/fhir/smart/backendAccess.ts'
import { beginLaunch, endLaunch, type LaunchPage } from '../../../src/adapters/fhir/smart/launch.ts'
import { createLaunchAccess } from '../../../src/adapters/fhir/smart/launchAccess.ts'
import { launchStep } from '../../../src/adapters/fhir/smart/launchStep.ts'
import { quietFetch } from '../../../src/adapters/fhir/smart/quietFetch.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import type { Clock } from '../../../src/ports/clock.ts'
import { smartServer, type SmartOptions } from '../../support/smartServer.ts'

const stops: (() => Promise<void>)[] = []
afterEach(async () => {
  for (const stop of stops.splice(0)) await stop()
})

const system = createSystemClock('test')
/** A clock whose monotonic side can be moved on; the wall clock is the machine's. */
let later_ms = 0
const clock: Clock = {
  ...system,
  read: () => ({ ...system.read(), mono_ms: system.read().mono_ms + later_ms }),
  wakeAt: (mono_ms, wake) => system.wakeAt(mono_ms - later_ms, wake),
}
afterEach(() => void (later_ms = 0))
let count = 0

async function started(options: SmartOptions = {}) {
  const key = createBrowserServerKey(`server-key-${(count += 1)}`)
  const smart = await smartServer({ jwks: await key.publicKeys(), ...options })
  stops.push(smart.stop)
  const scope = 'system/*.cruds'
  const login = { clientId: 'stillhand-tablet', scope, tokenEndpoint: `${smart.origin}/token` }
  const call = quietFetch(clock, 5, fetch)
  const access = createBackendAccess({
    ...{ address: smart.address, login, clock, call },
    key: () => key.named(),
  })
  const server = createFetchRecordServer({
    ...{ address: smart.address, access, clock, patience_s: 5, most_B: 1_000_000 },
  })
  const tokens = () => smart.seen.filter(({ kind }) => kind === 'token').length
  return { key, smart, access, server, tokens, login, call }
}

describe('a device with a key of its own (SMART Backend Services)', () => {
  it('gets a token by a signed assertion, and keeps it until shortly before its end', async () => {
    const { server, tokens, smart } = await started({ expires_s: 300 })
    expect((await server.search('Patient')).kind).toBe('done')
    expect((await server.search('Patient')).kind).toBe('done')
    expect(tokens()).toBe(1)
    later_ms = 285_000
    expect((await server.search('Patient')).kind).toBe('done')
    expect(tokens()).toBe(2)
    const assertion = smart.seen.find(({ kind }) => kind === 'token')?.body?.get('client_assertion')
    // SMART App Launch 2, "Client Authentication: Asymmetric": header and claims.
    const header = jose.decodeProtectedHeader(assertion ?? '')
    expect(header).toMatchObject({ alg: 'ES384', typ: 'JWT' })
    const claims = jose.decodeJwt(assertion ?? '')
    expect(claims).toMatchObject({ iss: 'stillhand-tablet', sub: 'stillhand-tablet' })
    expect((claims.exp ?? 0) - (claims.iat ?? 0)).toBeLessThanOrEqual(300)
  })

  it('names its key as RFC 7638 does, and never gives the private half away', async () => {
    const { key } = await started()
    const [jwk] = (JSON.parse(await key.publicKeys()) as { keys: jose.JWK[] }).keys
    if (!jwk) throw new Error('no key')
    const { kid, ...bare } = jwk
    expect(kid).toBe(await jose.calculateJwkThumbprint(bare))
    expect(jwk).not.toHaveProperty('d')
    const { key: own } = await key.named()
    expect(own.extractable).toBe(false)
    await expect(crypto.subtle.exportKey('jwk', own)).rejects.toThrow()
  })

  it('is the same device after a reload', async () => {
    const again = `server-key-${(count += 1)}`
    const first = await createBrowserServerKey(again).named()
    expect((await createBrowserServerKey(again).named()).kid).toBe(first.kid)
  })

  it('fetches another token where the server does not take the one it has', async () => {
    const { server, smart, tokens } = await started()
    await server.search('Patient')
    smart.endAll()
    expect(await server.search('Patient')).toMatchObject({ kind: 'trouble', why: 'login' })
    expect((await server.search('Patient')).kind).toBe('done')
    expect(tokens()).toBe(2)
  })

  it('asks once for many requests at one time', async () => {
    const { server, tokens } = await started()
    await Promise.all([1, 2, 3, 4].map(() => server.search('Patient')))
    expect(tokens()).toBe(1)
  })

  it.each<[string, SmartOptions, string]>([
    ['its key is not known there', { jwks: '{"keys":[]}' }, 'refused'],
    ['it is given less than it asks', { grants: 'system/Patient.rs' }, 'scope'],
    ['the FHIR server names another authorization server', { lies: true }, 'otherServer'],
  ])('sends nothing where %s', async (_name, options, access) => {
    const { server, smart } = await started(options)
    const answer = await server.search('Patient')
    expect(answer).toMatchObject({ kind: 'trouble', why: 'login', access })
    expect(smart.seen.filter(({ kind }) => kind === 'fhir')).toEqual([])
  })

  it('gets in with a clock that is an hour off, where the server says its time', async () => {
    for (const ahead_s of [3600, -3600]) {
      const { server, tokens } = await started({ ahead_s, showsDate: true })
      expect((await server.search('Patient')).kind).toBe('done')
      expect(tokens()).toBe(2)
    }
  })

  it('says so where nobody answers', async () => {
    const { access, smart } = await started()
    await smart.stop()
    stops.length = 0
    expect(await access.headers()).toEqual({ ok: false, faults: ['unreachable'] })
  })
})

/** A tab that goes where it is sent, as a browser would. */
function tab(start: string) {
  const kept = new Map<string, string>()
  let here = start
  const page = (): LaunchPage => ({
    here: new URL(here),
    keep: {
      getItem: (name) => kept.get(name) ?? null,
      setItem: (name, value) => void kept.set(name, value),
      removeItem: (name) => void kept.delete(name),
    },
    leaveFor: (url) => void (here = url),
    clearQuestion: () => void (here = here.replace(/\?.*/, '')),
  })
  return {
    page,
    kept,
    here: () => here,
    goTo: (url: string) => void (here = url),
    /** Follows to the authorization server and back. */
    async follow(): Promise<void> {
      const answer = await fetch(here, { redirect: 'manual' })
      here = answer.headers.get('Location') ?? ''
    },
  }
}

const APP = 'https://app.example/'
async function chart(options: SmartOptions = {}) {
  const { smart, call } = await started(options)
  const login = {
    clientId: 'stillhand-app',
    scope: 'launch patient/*.rs',
    tokenEndpoint: `${smart.origin}/token`,
    authorizationEndpoint: `${smart.origin}/authorize`,
  }
  const given = { address: smart.address, login, clock, call }
  const at = tab(`${APP}?iss=${encodeURIComponent(smart.address)}&launch=L-1`)
  return { smart, given, at }
}

describe('a launch from a chart (SMART App Launch)', () => {
  // RFC 7636, appendix B: the worked example of S256.
  it('hides the verifier as RFC 7636 does', async () => {
    const challenge = await oauth.calculatePKCECodeChallenge(
      'dBjftJeZ4CVP-mB92K27uhbUJU1p1r_wW1gFWFOEjXk',
    )
    expect(challenge).toBe('E9Melhoa2OwvFrEMTJguCHaoeK1t8URWbuGJSstw-cM')
  })

  it('asks as the standard has it, and lands with who is in the chart; nothing stays in address or tab', async () => {
    const { smart, given, at } = await chart()
    expect(launchStep(at.page().here)).toBe('begin')
    await beginLaunch(at.page(), given)
    const asked = Object.fromEntries(new URL(at.here()).searchParams)
    expect(asked).toMatchObject({
      ...{ response_type: 'code', client_id: 'stillhand-app', redirect_uri: APP, launch: 'L-1' },
      ...{ aud: smart.address, scope: 'launch patient/*.rs', code_challenge_method: 'S256' },
    })
    expect((asked['state'] ?? '').length).toBeGreaterThan(30)
    await at.follow()
    expect(launchStep(at.page().here)).toBe('end')
    const landed = await endLaunch(at.page(), given)
    expect(landed.patient).toBe('P-7')
    expect(at.here()).toBe(APP)
    expect(at.kept.size).toBe(0)
    expect(JSON.stringify([...at.kept])).not.toContain('token-')
    const access = createLaunchAccess({ ...given, landed: landed.held })
    expect((await access.headers()).ok).toBe(true)
  })

  it('is taken once: the same answer again brings nothing', async () => {
    const { given, at } = await chart()
    await beginLaunch(at.page(), given)
    await at.follow()
    const back = at.here()
    await endLaunch(at.page(), given)
    at.goTo(back)
    await expect(endLaunch(at.page(), given)).rejects.toMatchObject({ fault: 'noLaunch' })
  })

  it('of a server that the site did not set asks nobody for a code', async () => {
    const { given, at, smart } = await chart()
    at.goTo(`${APP}?iss=https://evil.example/fhir&launch=L-1`)
    await expect(beginLaunch(at.page(), given)).rejects.toMatchObject({ fault: 'otherServer' })
    expect(smart.seen).toEqual([])
  })

  it('takes no code that nobody here has asked for, and none with another state', async () => {
    const { given, at, smart } = await chart()
    const begun = at.here()
    at.goTo(`${APP}?code=stolen&state=made-up`)
    await expect(endLaunch(at.page(), given)).rejects.toMatchObject({ fault: 'noLaunch' })
    at.goTo(begun)
    await beginLaunch(at.page(), given)
    await at.follow()
    at.goTo(at.here().replace(/state=[^&]+/, 'state=other'))
    await expect(endLaunch(at.page(), given)).rejects.toMatchObject({ fault: 'noLaunch' })
    expect(smart.seen.filter(({ kind }) => kind === 'token')).toEqual([])
  })

  it('of two tabs with two patients each takes its own', async () => {
    const { given, at } = await chart()
    const other = tab(at.here().replace('L-1', 'L-2'))
    await beginLaunch(at.page(), given)
    await beginLaunch(other.page(), given)
    await at.follow()
    await other.follow()
    const mine = at.here()
    at.goTo(other.here())
    await expect(endLaunch(at.page(), given)).rejects.toMatchObject({ fault: 'noLaunch' })
    at.goTo(mine)
    expect((await endLaunch(at.page(), given)).patient).toBe('P-7')
  })

  it('that is refused there is told, and not tried again', async () => {
    const { given, at } = await chart()
    await beginLaunch(at.page(), given)
    const state = new URL(at.here()).searchParams.get('state') ?? ''
    at.goTo(`${APP}?error=access_denied&state=${state}`)
    const fault = await endLaunch(at.page(), given).catch(accessFaultOf)
    expect(fault).toBe('refused')
  })

  it.each<[string, SmartOptions, string]>([
    ['gives fewer rights', { grants: 'launch' }, 'scope'],
    ['names another authorization server', { lies: true }, 'otherServer'],
    ['knows no S256', { withoutPkce: true }, 'notSmart'],
  ])('at a server that %s brings no token', async (_name, options, expected) => {
    const { given, at } = await chart(options)
    const fault = await beginLaunch(at.page(), given)
      .then(() => at.follow())
      .then(() => endLaunch(at.page(), given))
      .catch(accessFaultOf)
    expect(fault).toBe(expected)
  })

  it('is renewed where the server lets it be, and said to be over where it does not', async () => {
    const { given, at, smart } = await chart()
    await beginLaunch(at.page(), given)
    await at.follow()
    const { held } = await endLaunch(at.page(), given)
    const access = createLaunchAccess({ ...given, landed: held })
    later_ms = 400_000
    const renewed = await access.headers()
    expect(renewed.ok && renewed.value['Authorization']).not.toBe(`Bearer ${held.token}`)
    later_ms = 800_000
    smart.endRefresh()
    expect(await access.headers()).toEqual({ ok: false, faults: ['noLaunch'] })
    const never = createLaunchAccess({ ...given, landed: undefined })
    expect(await never.headers()).toEqual({ ok: false, faults: ['noLaunch'] })
  })
})
