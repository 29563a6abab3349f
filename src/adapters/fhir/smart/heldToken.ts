import type { TokenEndpointResponse } from 'oauth4webapi'
import { missingScopes } from '../../../core/handOver/missingScopes.ts'
import type { Clock } from '../../../ports/clock.ts'
import { AccessError } from './authorization.ts'

/** So long before its end a token is not used any more. */
const MARGIN_s = 20
/** Where a server says nothing of its end: SMART recommends no more than an hour, and five minutes for this kind. */
const UNSAID_s = 300

/** A token in this page's memory. Its age is told by the clock that nobody sets. */
export interface HeldToken {
  readonly token: string
  readonly refresh: string | undefined
  readonly until_mono_ms: number
}

/** @throws AccessError `scope` where it gives less than was asked for */
export function heldToken(answer: TokenEndpointResponse, asked: string, clock: Clock): HeldToken {
  if (answer.token_type !== 'bearer') throw new AccessError('notSmart')
  if (missingScopes(asked, answer.scope).length > 0) throw new AccessError('scope')
  const life_s = Math.max(0, (answer.expires_in ?? UNSAID_s) - MARGIN_s)
  return {
    token: answer.access_token,
    refresh: answer.refresh_token,
    until_mono_ms: clock.read().mono_ms + life_s * 1000,
  }
}

export const isLive = (held: HeldToken | undefined, clock: Clock): held is HeldToken =>
  held !== undefined && clock.read().mono_ms < held.until_mono_ms

export const bearer = ({ token }: HeldToken) => ({ Authorization: `Bearer ${token}` })
