import type { HubSiteFault } from '../../../core/hub/hubSite.ts'
import type { TrustedDevice } from '../../../core/hub/roster.ts'
import type { HubFault } from '../../../ports/hubFault.ts'
import type { InvitationView } from '../join/deskJoin.ts'
import type { JoinFailure } from '../join/joinClinic.ts'
import type { RosterRefusal } from '../rosterBook.ts'
import type { SharedView } from './siteSharing.ts'

/** How this device stands to the site's clinic, for the settings screen. Plain data. */
export type ClinicSetupView =
  /** The site's file lies: the app works alone. */
  | { readonly kind: 'badSite'; readonly faults: readonly HubSiteFault[] }
  /** A PIN is set and not given: nobody knows. */
  | { readonly kind: 'locked'; readonly clinic: string }
  | (SetupCommon & {
      readonly kind: 'none'
      /** What joining is at. */
      readonly joining?: 'asking' | 'waiting'
    })
  | (SetupCommon & {
      readonly kind: 'member'
      readonly device: string
      readonly isDesk: boolean
      /** Whether it has the desk file, without which nobody is let in or cut off. */
      readonly hasDeskFile: boolean
      readonly devices: readonly TrustedDevice[]
      readonly passEnds_ms?: number
      readonly invitation?: InvitationView
      /** The desk that shows a code now, which ended the one that was shown here. */
      readonly invitedAt?: string
      /** A pass with more rights came; it counts from the next start on. */
      readonly hasNewPass: boolean
      /** Another desk had founded the clinic before this one: it belongs to nothing that counts. */
      readonly isRival: boolean
      /** What desks gave to all devices. */
      readonly shared: readonly SharedView[]
      /** An edition of the list of devices that cannot be taken, and why. */
      readonly refused?: { readonly edition: number; readonly why: RosterRefusal }
    })

interface SetupCommon {
  readonly clinic: string
  readonly isBusy: boolean
  /** What the site's file says wrong now; the one of before counts. */
  readonly siteFaults?: readonly HubSiteFault[]
  /** What came of the last act, until the next one. */
  readonly told?: SetupTold
}

export type SetupTold =
  | { readonly kind: 'joinRefused'; readonly why: JoinFailure; readonly tries?: number }
  /** No desk file. */
  | { readonly kind: 'noDeskFile' }
  | { readonly kind: 'otherDeskFile'; readonly clinic: string }
  /** Not a name that a device can have. */
  | { readonly kind: 'badName' }
  /** What was given could not be kept here: do it again. */
  | { readonly kind: 'notKept' }
  /** The records are locked. */
  | { readonly kind: 'locked' }
  /** Cut off at the hub, and not yet in the list of devices: to be done again. */
  | { readonly kind: 'halfRevoked'; readonly device: string }
  | { readonly kind: 'done'; readonly act: SetupAct; readonly device?: string }
  /** Another first desk was there: ask it for a code. */
  | { readonly kind: 'foundedAlready' }
  | { readonly kind: 'nameTaken' }
  /** Another desk gave something that does not count here yet: first that, then what this one has. */
  | { readonly kind: 'shareStale' }
  /** Without `fault` the hub said nothing of it. */
  | { readonly kind: 'failed'; readonly act: SetupAct; readonly fault?: HubFault }

export const SETUP_ACTS = ['found', 'admit', 'revoke', 'makeDesk', 'share', 'leave'] as const
export type SetupAct = (typeof SETUP_ACTS)[number]
