import type { HubSite, HubSiteFault } from '../../../core/hub/hubSite.ts'
import type { Membership } from '../../../core/hub/membership.ts'
import type { VerifySignature } from '../../../core/log/exportFile.ts'
import type { Sha256 } from '../../../core/log/seal.ts'
import type { ClinicKeys } from '../../../ports/clinicKeys.ts'
import type { Clock } from '../../../ports/clock.ts'
import type { DeviceKey } from '../../../ports/deviceKey.ts'
import type { Hub } from '../../../ports/hub.ts'
import type { HubRights } from '../../../ports/hubRights.ts'
import type { JoinCrypto } from '../../../ports/joinCrypto.ts'
import type { SecretStore } from '../../../ports/secretStore.ts'
import type { SettingsStore } from '../../../ports/settingsStore.ts'
import type { RosterBook } from '../rosterBook.ts'
import type { ClinicSetupView } from './clinicSetupView.ts'

/** What a device that belongs to a clinic has running. */
export interface ClinicMember {
  readonly clinic: string
  /** Its name at the hub. */
  readonly device: string
  /** Started; lives as long as the page. */
  readonly hub: Hub
  readonly book: RosterBook
  /** Its pass as it is kept, to be read for when it ends. */
  readonly pass: () => Membership['pass']
  /** Keeps a pass of the same key that counts longer or for more; in use from the next connection on. */
  readonly keepPass: (jwt: string) => Promise<void>
}

/** What founding, joining and the desk's acts stand on; made once where the app is wired. */
export interface ClinicSetupDeps {
  readonly site: HubSite
  readonly clock: Clock
  readonly crypto: JoinCrypto
  readonly keys: ClinicKeys
  readonly rights: HubRights
  /** `pass` holds the text of the membership, `desk` that of the desk file. */
  readonly secrets: SecretStore
  readonly settingsStore: SettingsStore
  readonly deviceKey: DeviceKey
  readonly verify: VerifySignature
  readonly sha256: Sha256
  /** A hub of its own to the site's servers with that pass, not started. A joining pass has no seed. */
  readonly hubWith: (device: string, pass: { readonly jwt: string; readonly seed?: string }) => Hub
  /** `undefined` while this device belongs to no clinic, and while its records are locked. */
  readonly member: () => ClinicMember | undefined
  /** Tells whenever there is a member that was not there before. */
  readonly onMember: (observer: () => void) => () => void
  /** A name for a new device at the hub, drawn by lot. */
  readonly newId: () => string
  /** A short name for a public key, the same on both screens. */
  readonly keyName: (publicKey: string) => string
  /** When a pass ends, ms since 1970 UTC; `undefined` for one without an end or what is no pass. */
  readonly passEnds_ms: (jwt: string) => number | undefined
  /**
   * Keeps that this device belongs to that clinic and loads the app anew; whoever calls has made sure that the hub
   * knows it. Rejects where it cannot be kept, and nothing has changed then.
   */
  readonly enter: (membership: Membership) => Promise<void>
  /** Nothing of the clinic stays on this device but its own records; loads the app anew. */
  readonly leave: () => Promise<void>
  /** Loads the app anew. */
  readonly startAnew: () => void
  /** So long between two questions of a device that joins. */
  readonly poll_ms?: number
}

/** The clinic as the settings screen sees it: founding, joining, letting in, cutting off. Nothing in it rejects. */
export interface ClinicSetup {
  view(): ClinicSetupView
  readonly onChange: (observer: () => void) => () => void
  readonly acts: ClinicSetupActs
  /** What the site's file says wrong now; the one of before counts. */
  readonly siteFaults?: readonly HubSiteFault[]
}

/** What a person can ask for. What goes wrong is told in the view. */
export interface ClinicSetupActs {
  /** Makes this device the first desk. @param deskFile text of `desk.json` */
  found(deskFile: string, name: string): Promise<void>
  join(code: string, name: string): Promise<void>
  stopJoining(): void
  /** Shows a code; an earlier one is over. */
  invite(): void
  admit(): Promise<void>
  refuse(): void
  closeInvitation(): void
  revoke(device: string): Promise<void>
  /** Makes another device a desk for good: what a desk knows cannot be taken back, only cut off. */
  makeDesk(device: string): Promise<void>
  /** Gives the catalog, limits, laboratories and stock of this desk to every device. */
  share(): Promise<void>
  /** This device was made a desk, or a desk gave something: loads the app anew, by which it counts. */
  beginAnew(): void
  leave(): Promise<void>
}

/** `undefined` where the site has no hub; faults where its file lies. */
export type ClinicSetupFound =
  ClinicSetup | { readonly faults: readonly HubSiteFault[] } | undefined
