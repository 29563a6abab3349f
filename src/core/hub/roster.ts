import { canonicalJson } from '../log/canonicalJson.ts'
import type { WrappedKeys } from './wrappedKeys.ts'

/** A device that a desk let into the clinic. It stays on the list for good: its entries must be checked for ever. */
export interface TrustedDevice {
  /** Its name at the hub, drawn by lot when it joined. */
  readonly id: string
  /** What people call it; two devices in use never have the same. */
  readonly name: string
  /** Checks what it signs: ECDSA P-256, SPKI in hex. */
  readonly signingKey: string
  /** Wraps keys for it: ECDH P-256, SPKI in hex. */
  readonly sealingKey: string
  /** Public key of its pass at the hub, in the hub's own letters: what is cut off when it is revoked. */
  readonly passKey: string
  /** Unix ms by the hub's clock, as are all times of a roster. */
  readonly since_ms: number
  /** Nothing that the hub took from then on counts. */
  readonly revoked_ms?: number
  /** May let devices in and cut them off. */
  readonly isDesk: boolean
}

/** Who belongs to a clinic. Each edition follows the one before and is signed by a desk of that one. */
export interface Roster {
  readonly format: 'stillhand-roster'
  readonly version: 1
  readonly clinic: string
  /** Counts from 1, without a gap. */
  readonly edition: number
  /** Name of the clinic's key that is in force from this edition on. */
  readonly key: string
  readonly devices: readonly TrustedDevice[]
}

/** An edition as it is passed on. */
export interface SignedRoster {
  readonly roster: Roster
  /** The clinic's keys for each device in use, by the device's id. */
  readonly keys: Readonly<Record<string, WrappedKeys>>
  /** Id of the desk that signed. */
  readonly by: string
  /** ECDSA with SHA-256 over `rosterText`, hex. */
  readonly signature: string
}

/** The text that a desk signs: everything but the signature, in one form. */
export function rosterText({ roster, keys, by }: Omit<SignedRoster, 'signature'>): string {
  return canonicalJson({ by, keys, roster })
}

export type DeviceVerdict = 'trusted' | 'revoked' | 'unknown'

/**
 * Whether what a device sent counts.
 * @param at_ms when the hub took it, by the hub's clock: a device may tell any time of its own
 */
export function verdictOf(roster: Roster, device: string, at_ms: number): DeviceVerdict {
  const found = deviceOf(roster, device)
  if (!found) return 'unknown'
  return found.revoked_ms !== undefined && at_ms >= found.revoked_ms ? 'revoked' : 'trusted'
}

export const deviceOf = (roster: Roster, id: string): TrustedDevice | undefined =>
  roster.devices.find((device) => device.id === id)

/** The devices that were not cut off. */
export const devicesInUse = (roster: Roster): readonly TrustedDevice[] =>
  roster.devices.filter((device) => device.revoked_ms === undefined)
