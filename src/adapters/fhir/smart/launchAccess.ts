import * as oauth from 'oauth4webapi'
import { faulty, ok } from '../../../core/basics/result.ts'
import type { LaunchLogin } from '../../../core/handOver/smartLogin.ts'
import type { Clock } from '../../../ports/clock.ts'
import type { ServerAccess } from '../../../ports/serverAccess.ts'
import { accessFaultOf, authorizationOf, optionsFor } from './authorization.ts'
import { bearer, heldToken, isLive, type HeldToken } from './heldToken.ts'
import type { Fetch } from './quietFetch.ts'

export interface LaunchAccessOptions {
  readonly address: string
  readonly login: LaunchLogin
  readonly clock: Clock
  readonly call: Fetch
  /** What the launch gave, where this page comes from one. */
  readonly landed: HeldToken | undefined
}

/** A login that a chart gave: in this page's memory, renewed where the server lets it be, gone with the page. */
export function createLaunchAccess(options: LaunchAccessOptions): ServerAccess {
  const { address, login, clock, call } = options
  let held = options.landed
  let asking: Promise<HeldToken> | undefined

  async function renewed(refresh: string): Promise<HeldToken> {
    const as = await authorizationOf(address, login, call)
    const client: oauth.Client = { client_id: login.clientId }
    const answer = await oauth.refreshTokenGrantRequest(
      as,
      client,
      oauth.None(),
      refresh,
      optionsFor(call, login.tokenEndpoint),
    )
    const token = await oauth.processRefreshTokenResponse(as, client, answer)
    // RFC 6749 section 6: without a new one the old one stays.
    const next = heldToken(token, login.scope, clock)
    return { ...next, refresh: next.refresh ?? refresh }
  }

  return {
    headers: async () => {
      const now = held
      if (isLive(now, clock)) return ok(bearer(now))
      if (held?.refresh === undefined) return faulty(['noLaunch'])
      try {
        const { refresh } = held
        asking ??= renewed(refresh).finally(() => (asking = undefined))
        held = await asking
        return ok(bearer(held))
      } catch (error) {
        const fault = accessFaultOf(error)
        // It is not taken any more: only the chart can give another.
        if (fault === 'refused') held = undefined
        return faulty([fault === 'refused' ? 'noLaunch' : fault])
      }
    },
    forget: () => {
      if (held) held = { ...held, until_mono_ms: 0 }
    },
  }
}
