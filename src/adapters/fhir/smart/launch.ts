import * as oauth from 'oauth4webapi'
import { isRecord } from '../../../core/basics/isRecord.ts'
import type { LaunchLogin } from '../../../core/handOver/smartLogin.ts'
import type { Clock } from '../../../ports/clock.ts'
import { AccessError, authorizationOf, optionsFor } from './authorization.ts'
import { heldToken, type HeldToken } from './heldToken.ts'
import type { Fetch } from './quietFetch.ts'

/** The parts of a page that a launch needs. */
export interface LaunchPage {
  /** Address of this page with its question, `https://app.example/?iss=…`. */
  readonly here: URL
  /** Of this tab alone, until it is closed: what must outlive the way to the authorization server and back. */
  readonly keep: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>
  /** Leaves for another address. */
  readonly leaveFor: (url: string) => void
  /** Takes the question out of the address, so that neither a reload nor the history repeats it. */
  readonly clearQuestion: () => void
}

export interface LaunchOptions {
  readonly address: string
  readonly login: LaunchLogin
  readonly clock: Clock
  readonly call: Fetch
}

/** What a launch brought. */
export interface Landed {
  readonly held: HeldToken
  /** The server's id of who is in the chart. */
  readonly patient: string | undefined
}

const KEPT = 'stillhand-launch-'

/**
 * Goes to the authorization server, with proof of possession (RFC 7636, S256) and a state that nobody can foresee.
 * @throws AccessError `otherServer` for a chart of a server that the site did not set: no code is asked of it
 */
export async function beginLaunch(page: LaunchPage, options: LaunchOptions): Promise<void> {
  const { address, login, call } = options
  const asked = page.here.searchParams
  const iss = (asked.get('iss') ?? '').replace(/\/+$/, '')
  if (iss !== address) throw new AccessError('otherServer')
  await authorizationOf(address, login, call)
  const verifier = oauth.generateRandomCodeVerifier()
  const state = oauth.generateRandomState()
  page.keep.setItem(KEPT + state, JSON.stringify({ verifier }))
  const url = new URL(login.authorizationEndpoint)
  const question = {
    response_type: 'code',
    client_id: login.clientId,
    redirect_uri: redirectOf(page.here),
    scope: login.scope,
    state,
    aud: address,
    launch: asked.get('launch') ?? '',
    code_challenge: await oauth.calculatePKCECodeChallenge(verifier),
    code_challenge_method: 'S256',
  }
  for (const [name, value] of Object.entries(question)) url.searchParams.set(name, value)
  page.leaveFor(url.href)
}

/**
 * Takes the code that came back and gets a token for it, once.
 * @throws AccessError, or what `accessFaultOf` tells
 */
export async function endLaunch(page: LaunchPage, options: LaunchOptions): Promise<Landed> {
  const { address, login, clock, call } = options
  const asked = new URLSearchParams(page.here.searchParams)
  page.clearQuestion()
  const state = asked.get('state') ?? ''
  const kept = parsed(page.keep.getItem(KEPT + state))
  page.keep.removeItem(KEPT + state)
  // Nobody here has begun it: a code that somebody else got is not taken.
  if (!isRecord(kept) || typeof kept['verifier'] !== 'string') throw new AccessError('noLaunch')
  const as = await authorizationOf(address, login, call)
  const client: oauth.Client = { client_id: login.clientId }
  const checked = oauth.validateAuthResponse(as, client, asked, state)
  const answer = await oauth.authorizationCodeGrantRequest(
    as,
    client,
    oauth.None(),
    checked,
    redirectOf(page.here),
    kept['verifier'],
    optionsFor(call, login.tokenEndpoint),
  )
  const token = await oauth.processAuthorizationCodeResponse(as, client, answer)
  const { patient } = token
  return {
    held: heldToken(token, login.scope, clock),
    patient: typeof patient === 'string' ? patient : undefined,
  }
}

/** Registered with the authorization server: the page without its question. */
const redirectOf = ({ origin, pathname }: URL): string => origin + pathname

function parsed(text: string | null): unknown {
  try {
    return JSON.parse(text ?? '')
  } catch {
    return undefined
  }
}
