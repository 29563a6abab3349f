import { JetStreamApiError } from '@nats-io/jetstream'
import { errors } from '@nats-io/nats-core'
import { errorText } from '../../../core/basics/errorText.ts'
import { HubError, type HubFault, type HubRefusal } from '../../../ports/hubFault.ts'

/** Another entry stands there. */
export const WRONG_LAST = 10071
/** In a cluster: the entry before is still on its way, so nobody can say yet. */
export const NOT_YET = 10164
export const NO_MESSAGE = 10037

/** The server's numbers, from its own table of errors, that mean something to a person. */
const FAULT_OF: Readonly<Record<number, HubFault>> = {
  10059: 'notSetUp', // stream not found
  10039: 'notSetUp', // JetStream not enabled for account
  10076: 'notSetUp', // JetStream not enabled
  10023: 'full', // insufficient resources
  10028: 'full', // memory resources exceeded
  10047: 'full', // storage resources exceeded
  10077: 'full', // store failed: maximum bytes or messages
  10054: 'tooLarge', // message size exceeds maximum allowed
  10008: 'unreachable', // no leader at the moment
  10009: 'unreachable', // no peers for a cluster
}

/** An error and what caused it, outermost first. */
function causes(error: unknown): readonly unknown[] {
  const all: unknown[] = []
  for (let at = error; at !== undefined && at !== null && all.length < 8;) {
    all.push(at)
    at = at instanceof Error ? at.cause : undefined
  }
  return all
}

export const codeOf = (error: unknown): number | undefined =>
  error instanceof JetStreamApiError ? error.code : undefined

/** Any error of the library as one of the hub. */
export function asHubError(error: unknown): HubError {
  if (error instanceof HubError) return error
  const all = causes(error)
  const message = errorText(error)
  const code = all.map(codeOf).find((found) => found !== undefined)
  if (code !== undefined) return new HubError(FAULT_OF[code] ?? 'unknown', message, error)
  if (all.some((one) => one instanceof errors.PermissionViolationError)) {
    return new HubError('refused', message, error)
  }
  const isAway = all.some(
    (one) =>
      one instanceof errors.TimeoutError ||
      one instanceof errors.NoRespondersError ||
      one instanceof errors.ClosedConnectionError ||
      one instanceof errors.DrainingConnectionError ||
      one instanceof errors.ConnectionError ||
      one instanceof errors.RequestError,
  )
  return new HubError(isAway ? 'unreachable' : 'unknown', message, error)
}

const CERTIFICATE =
  /certificate|self.signed|CERT_|UNABLE_TO_VERIFY|UNABLE_TO_GET_ISSUER|ERR_TLS_CERT|altname/i

/** Why a connection was not made or was ended, where it is not only that nobody is there. */
export function refusalOf(error: unknown): HubRefusal | undefined {
  for (const one of causes(error)) {
    const code = one instanceof Error && 'code' in one ? String(one.code) : ''
    const words = `${code} ${errorText(one)}`
    if (/authentication revoked/i.test(words)) return 'revoked'
    if (/authentication expired/i.test(words)) return 'expired'
    if (one instanceof errors.AuthorizationError) return 'credentials'
    if (CERTIFICATE.test(words)) return 'certificate'
  }
  return undefined
}
