import * as oauth from 'oauth4webapi'
import { faulty, ok } from '../../../core/basics/result.ts'
import type { SmartLogin } from '../../../core/handOver/smartLogin.ts'
import type { Clock } from '../../../ports/clock.ts'
import type { ServerAccess } from '../../../ports/serverAccess.ts'
import { AccessError, accessFaultOf, authorizationOf, optionsFor } from './authorization.ts'
import { bearer, heldToken, isLive, type HeldToken } from './heldToken.ts'
import type { Fetch } from './quietFetch.ts'

/** The key of this device with the name under which the authorization server knows it. */
export interface NamedKey {
  readonly key: CryptoKey
  readonly kid: string
}

export interface BackendOptions {
  /** Base address of the FHIR server. */
  readonly address: string
  readonly login: SmartLogin
  readonly clock: Clock
  readonly key: () => Promise<NamedKey>
  readonly call: Fetch
}

/** Where the clocks differ by more, that is the reason; assertions live for a minute. */
const CLOCK_OFF_s = 30

/**
 * SMART Backend Services: an assertion signed by this device's key (RFC 7523, ES384) for a token, kept in memory until
 * shortly before its end. Where the server says what time it has, a clock that is off does no harm.
 */
export function createBackendAccess(options: BackendOptions): ServerAccess {
  const { address, login, clock, call } = options
  let held: HeldToken | undefined
  let asking: Promise<HeldToken> | undefined
  let skew_s = 0

  async function grant(as: oauth.AuthorizationServer): Promise<HeldToken> {
    const client: oauth.Client = { client_id: login.clientId, [oauth.clockSkew]: skew_s }
    const byKey = oauth.PrivateKeyJwt(await options.key(), {
      [oauth.modifyAssertion]: (header, payload) => {
        header['typ'] = 'JWT'
        // SMART asks for the address of the token endpoint as audience.
        payload['aud'] = login.tokenEndpoint
      },
    })
    const answer = await oauth.clientCredentialsGrantRequest(
      as,
      client,
      byKey,
      { scope: login.scope },
      optionsFor(call, login.tokenEndpoint),
    )
    const off_s = offBy_s(answer, clock, skew_s)
    try {
      const token = await oauth.processClientCredentialsResponse(as, client, answer)
      return heldToken(token, login.scope, clock)
    } catch (error) {
      if (accessFaultOf(error) !== 'refused' || off_s === undefined) throw error
      if (Math.abs(off_s - skew_s) > CLOCK_OFF_s) throw new ClockOff(off_s)
      throw error
    }
  }

  async function fresh(): Promise<HeldToken> {
    const as = await authorizationOf(address, login, call)
    try {
      return await grant(as)
    } catch (error) {
      if (!(error instanceof ClockOff)) throw error
      skew_s = error.skew_s
    }
    return grant(as).catch((error: unknown) => {
      throw accessFaultOf(error) === 'refused' ? new AccessError('clock', error) : error
    })
  }

  return {
    headers: async () => {
      if (isLive(held, clock)) return ok(bearer(held))
      try {
        asking ??= fresh().finally(() => (asking = undefined))
        held = await asking
        return ok(bearer(held))
      } catch (error) {
        return faulty([accessFaultOf(error)])
      }
    },
    forget: () => void (held = undefined),
  }
}

/** The server's clock is not ours: worth one more try. */
class ClockOff extends Error {
  readonly skew_s: number
  constructor(skew_s: number) {
    super('The clocks differ.')
    this.skew_s = skew_s
  }
}

/** By how much the server's clock is ahead, where it lets this page read its `Date` (CORS). */
function offBy_s({ headers }: Response, clock: Clock, before_s: number): number | undefined {
  const said_ms = Date.parse(headers.get('Date') ?? '')
  if (Number.isNaN(said_ms)) return undefined
  // The library tells time by the clock of the machine.
  const off_s = Math.round((said_ms - clock.read().wall_ms) / 1000)
  return off_s === before_s ? undefined : off_s
}
