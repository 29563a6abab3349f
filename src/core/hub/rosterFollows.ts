import { deviceOf, type Roster, type SignedRoster, type TrustedDevice } from './roster.ts'

/** Why an edition of the roster does not follow the one that is known. */
export const SUCCESSION_FAULTS = [
  /** Not newer than what is known. */
  'older',
  /** An edition in between is missing. */
  'gap',
  'otherClinic',
  /** Signed by nobody who was a desk, and in use, in the edition before. */
  'noDesk',
  /** A device is missing that was known. */
  'deviceGone',
  /** A device of that name at the hub has another signing key, or came at another time. */
  'deviceChanged',
  /** A device that was cut off is back, or was cut off at another time. */
  'revokedBack',
] as const
export type SuccessionFault = (typeof SUCCESSION_FAULTS)[number]

/**
 * Says why an edition does not follow the known one, or `undefined`. The signature itself is checked with the key of
 * the desk that `signerOf` names: one of the edition before, never of the new one.
 */
export function successionFault(known: Roster, next: SignedRoster): SuccessionFault | undefined {
  const { roster } = next
  if (roster.clinic !== known.clinic) return 'otherClinic'
  if (roster.edition <= known.edition) return 'older'
  if (roster.edition > known.edition + 1) return 'gap'
  if (!signerOf(known, next)) return 'noDesk'
  for (const device of known.devices) {
    const fault = deviceFault(device, deviceOf(roster, device.id))
    if (fault) return fault
  }
  return undefined
}

/** The desk that may sign what comes behind this edition, if the one that signed is such a desk. */
export function signerOf(known: Roster, next: SignedRoster): TrustedDevice | undefined {
  const signer = deviceOf(known, next.by)
  return signer?.isDesk && signer.revoked_ms === undefined ? signer : undefined
}

function deviceFault(
  before: TrustedDevice,
  after: TrustedDevice | undefined,
): SuccessionFault | undefined {
  if (!after) return 'deviceGone'
  if (after.signingKey !== before.signingKey || after.since_ms !== before.since_ms)
    return 'deviceChanged'
  if (before.revoked_ms === undefined) return undefined
  return before.revoked_ms === after.revoked_ms ? undefined : 'revokedBack'
}
