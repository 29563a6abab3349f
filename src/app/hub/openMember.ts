import { readMembership, type Membership } from '../../core/hub/membership.ts'
import { deviceOf, verdictOf } from '../../core/hub/roster.ts'
import type { ClinicKeys } from '../../ports/clinicKeys.ts'
import type { DeviceKey } from '../../ports/deviceKey.ts'
import type { Hub } from '../../ports/hub.ts'
import type { SecretStore } from '../../ports/secretStore.ts'
import { storageFaultOf } from '../../ports/storageFault.ts'
import type { Clinic } from './clinic.ts'
import { createClinic, type ClinicDeps } from './createClinic.ts'
import type { TrustedDevices } from './envelopes.ts'
import { createRosterBook, type RosterBook } from './rosterBook.ts'
import type { ClinicMember } from './setup/clinicSetup.ts'
import { createKeptMembership } from './setup/keptMembership.ts'

type Given = 'hubStore' | 'clock' | 'sha256' | 'logStore' | 'dayStore' | 'verify' | 'turn'

export interface MemberDeps extends Pick<ClinicDeps, Given> {
  /** Whose hub the site's file names. */
  readonly clinic: string
  readonly keys: ClinicKeys
  readonly secrets: SecretStore
  readonly deviceKey: DeviceKey
  /** The pass is read at each connection. */
  readonly hubWith: (device: string, pass: () => Membership['pass']) => Hub
}

export type OpenedMember =
  | { readonly kind: 'open'; readonly clinic: Clinic; readonly member: ClinicMember }
  | { readonly kind: 'locked' | 'lost' }

/** Opens what makes this device one of its clinic. Rejects where it cannot be read now. */
export async function openMember(deps: MemberDeps): Promise<OpenedMember> {
  const { secrets, keys, verify } = deps
  const text = await secrets.read('pass').catch((error: unknown) => {
    if (storageFaultOf(error) === 'locked') return 'locked' as const
    // What does not open any more never will: the key of this browser is another one.
    if (storageFaultOf(error) === 'damaged') return undefined
    throw error
  })
  if (text === 'locked') return { kind: 'locked' }
  const membership = text === undefined ? undefined : readMembership(text)
  if (!membership || membership.clinic !== deps.clinic) return { kind: 'lost' }

  const { device } = membership
  const kept = createKeptMembership(secrets, membership)
  const pass = (): Membership['pass'] => kept.now().pass
  const hub = deps.hubWith(device, pass)
  const sign = signAs(device, () => book, deps.deviceKey)
  const book: RosterBook = createRosterBook(membership.roster, {
    ...{ hub, device, keys, sign, verify },
    keep: kept.keepRoster,
  })
  book.start()
  const clinic = createClinic({
    ...deps,
    ...{ hub, device, sealer: keys, sign },
    trust: trustIn(book),
    onTrustChange: (observer) => {
      const stops = [book.onChange(observer), keys.onChange(observer)]
      return () => stops.forEach((stop) => stop())
    },
  })
  const { keepPass } = kept
  return {
    kind: 'open',
    clinic,
    member: { clinic: deps.clinic, device, hub, book, pass, keepPass },
  }
}

/**
 * Signs only with the key under which the clinic knows this device: a disk that hangs gives another one for as long as
 * the page lives, and what is signed with that would stand at the hub for good as nobody's.
 */
function signAs(device: string, book: () => RosterBook, key: DeviceKey) {
  return async (text: string): Promise<string> => {
    const { publicKey } = await key.identity()
    if (deviceOf(book().roster(), device)?.signingKey !== publicKey) {
      throw new Error('This is not the key under which the clinic knows this device.')
    }
    return key.sign(text)
  }
}

const trustIn = (book: RosterBook): TrustedDevices => ({
  verdict: (device, at_ms) => verdictOf(book.roster(), device, at_ms),
  signingKey: (device) => deviceOf(book.roster(), device)?.signingKey,
  nameOf: (device) => deviceOf(book.roster(), device)?.name,
})
