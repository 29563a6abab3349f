import * as oauth from 'oauth4webapi'
import type { AccessFault } from '../../../core/handOver/accessFault.ts'
import type { LaunchLogin, SmartLogin } from '../../../core/handOver/smartLogin.ts'
import { isRecord } from '../../../core/basics/isRecord.ts'
import { readAtMost } from '../readAtMost.ts'
import type { Fetch } from './quietFetch.ts'

/** Thrown for what a person is told in words. */
export class AccessError extends Error {
  readonly fault: AccessFault
  constructor(fault: AccessFault, cause?: unknown) {
    super(fault, { cause })
    this.fault = fault
  }
}

const MOST_B = 200_000

/**
 * Asks the FHIR server where its authorization server is (SMART App Launch 2, "Conformance"). What it says must be what
 * the site set: otherwise a login of the site would go to whoever answers.
 * @throws AccessError
 */
export async function authorizationOf(
  address: string,
  login: SmartLogin | LaunchLogin,
  call: Fetch,
): Promise<oauth.AuthorizationServer> {
  const url = `${address}/.well-known/smart-configuration`
  const answer = await call(url, { headers: { Accept: 'application/json' } }).catch(
    (cause: unknown) => {
      throw new AccessError('unreachable', cause)
    },
  )
  const said = answer.ok ? parsed(await readAtMost(answer, MOST_B)) : undefined
  if (!isRecord(said)) throw new AccessError('notSmart')
  const { token_endpoint, authorization_endpoint, code_challenge_methods_supported: pkce } = said
  const isSame = token_endpoint === login.tokenEndpoint
  const isLaunch = 'authorizationEndpoint' in login
  if (!isSame || (isLaunch && authorization_endpoint !== login.authorizationEndpoint)) {
    throw new AccessError('otherServer')
  }
  // SMART asks every server for S256; one without would take a stolen code.
  if (isLaunch && !(Array.isArray(pkce) && pkce.includes('S256'))) {
    throw new AccessError('notSmart')
  }
  const issuer = typeof said['issuer'] === 'string' ? said['issuer'] : address
  return {
    issuer,
    token_endpoint: login.tokenEndpoint,
    ...(isLaunch && { authorization_endpoint: login.authorizationEndpoint }),
  }
}

function parsed(text: string | undefined): unknown {
  try {
    return JSON.parse(text ?? '')
  } catch {
    return undefined
  }
}

/** What a person is told of something that the exchange of tokens threw. */
export function accessFaultOf(error: unknown): AccessFault {
  if (error instanceof AccessError) return error.fault
  if (error instanceof oauth.ResponseBodyError) {
    return error.error === 'invalid_scope' ? 'scope' : 'refused'
  }
  if (error instanceof oauth.AuthorizationResponseError) {
    return error.error === 'invalid_scope' ? 'scope' : 'refused'
  }
  const isOfProtocol =
    error instanceof oauth.OperationProcessingError ||
    error instanceof oauth.UnsupportedOperationError ||
    error instanceof oauth.WWWAuthenticateChallengeError
  return isOfProtocol ? 'notSmart' : 'unreachable'
}

/** Plain http is for this machine alone, which the site's file is held to. */
export const optionsFor = (call: Fetch, endpoint: string) => ({
  [oauth.customFetch]: call,
  [oauth.allowInsecureRequests]: endpoint.startsWith('http://'),
})
