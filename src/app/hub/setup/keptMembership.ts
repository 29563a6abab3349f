import { membershipText, readMembership, type Membership } from '../../../core/hub/membership.ts'
import type { SignedRoster } from '../../../core/hub/roster.ts'
import type { SecretStore } from '../../../ports/secretStore.ts'

/** What makes this device one of its clinic, as it is kept; another page of it may keep something newer. */
export interface KeptMembership {
  readonly now: () => Membership
  readonly keepRoster: (signed: SignedRoster) => Promise<void>
  /** A pass of the same key that counts longer, or for more. */
  readonly keepPass: (jwt: string) => Promise<void>
}

export function createKeptMembership(secrets: SecretStore, first: Membership): KeptMembership {
  let kept = first
  const change = async (next: (was: Membership) => Membership): Promise<void> => {
    await secrets.update('pass', (text) => {
      const stored = text === undefined ? undefined : readMembership(text)
      // Left meanwhile, on another page: what is gone stays gone.
      if (stored?.device !== first.device) return undefined
      kept = next(stored)
      return membershipText(kept)
    })
  }
  return {
    now: () => kept,
    keepRoster: (roster) =>
      change((was) =>
        was.roster.roster.edition < roster.roster.edition ? { ...was, roster } : was,
      ),
    keepPass: (jwt) => change((was) => ({ ...was, pass: { ...was.pass, jwt } })),
  }
}
