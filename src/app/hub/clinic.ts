import type { DayEntry } from '../../core/day/dayEvents.ts'
import type { AsideReason } from '../../core/hub/replica.ts'
import type { CheckedLog } from '../../core/log/readStored.ts'
import type { LogEntry } from '../../core/protocol/entry.ts'
import type { HubFault, HubRefusal } from '../../ports/hubFault.ts'
import type { StoredDraw } from '../../ports/logStore.ts'

/** A draw that another device writes. */
export interface OtherDraw extends StoredDraw {
  /** What people call the device that writes it now. */
  readonly deviceName: string
  /** The device that began it, where that is another of the clinic's and nothing of it was drawn here. */
  readonly begunBy?: string
  /** Its step is not known to have changed since: ms since 1970 UTC, by the hub's clock. */
  readonly heard_ms: number
}

/** Own entries that are no part of a record: another device writes that draw. */
export interface KeptAside {
  readonly drawId: string
  readonly from_seq: number
  readonly entries_n: number
  /** The entries themselves, for a person to read. */
  readonly entries: readonly unknown[]
  /** What people call the device that writes the draw. */
  readonly writer: string
}

/** What stands at the hub and is shown as no record: from whom, and why. */
export interface NotTaken {
  readonly device: string
  readonly why: AsideReason
  readonly entries_n: number
}

/** What is told however this device stands to its clinic. */
interface ClinicCounts {
  /** ms since 1970 UTC by this device's clock. */
  readonly since_ms: number
  /** Messages that are still to come, with the hub there. */
  readonly coming_n: number
  /** Own entries that the hub has not confirmed. */
  readonly waiting_n: number
  /** Of several pages of this device another one sends. */
  readonly isSentElsewhere?: true
  /** What people call another device that gives its draws the same prefix as this one. */
  readonly samePrefix?: string
  readonly aside: readonly KeptAside[]
  readonly notTaken: readonly NotTaken[]
  /** What the hub does not take, log by log. */
  readonly faults: readonly HubFault[]
}

/** How this device stands to its clinic; `undefined` for a device that belongs to none. */
export type ClinicView = ClinicCounts &
  (
    | { readonly link: 'connecting' | 'connected' | 'alone' }
    | { readonly link: 'refused'; readonly why: HubRefusal }
  )

/** What becomes of wanting something that one device alone may have. */
export type Claimed =
  | { readonly kind: 'ours' }
  | { readonly kind: 'taken'; readonly by: string }
  /** Nobody else could be asked. */
  | { readonly kind: 'alone' }

export type TakenOver =
  | {
      readonly kind: 'taken'
      readonly entries: readonly LogEntry[]
      /** What people call the device that wrote it, and this one. */
      readonly from: string
      readonly to: string
    }
  | { readonly kind: 'refused'; readonly why: TakeRefusal; readonly by?: string }

/** Why a draw cannot be gone on with on this device. */
export const TAKE_REFUSALS = [
  /** Without the hub nobody knows whether it is written elsewhere. */
  'alone',
  /** Not everything of it is here, or something in it does not check. */
  'notWhole',
  /** Another device was first. */
  'elsewhere',
  /** This device has entries of it that are no part of the record. */
  'ownAside',
  'unknown',
] as const
export type TakeRefusal = (typeof TAKE_REFUSALS)[number]

/** The clinic as the rest of the app sees it. Nothing in it rejects, and no draw waits for it. */
export interface Clinic {
  start(): Promise<void>
  view(): ClinicView | undefined
  /** What this device keeps of the others was read; before that what they did looks as if it had not been done. */
  isRead(): boolean
  /** What other devices recorded outside of draws, each device in its own order. */
  readonly dayEntries: () => readonly DayEntry[]
  /** Draws that other devices write, the newest first. */
  readonly draws: () => readonly OtherDraw[]
  /** The log of a draw that another device writes, checked. */
  readonly load: (drawId: string) => CheckedLog | undefined
  /** @param what the same on every device, `order.KM47-L3` */
  claim(what: string): Promise<Claimed>
  /** From now on this device writes the draw; what it gives has to be stored here before anything is added. */
  takeOver(drawId: string): Promise<TakenOver>
  /** Something was written here. @param log where, as far as one log is meant */
  wrote(log?: string): void
  /** A record was taken off this device: what it keeps of the hub's copy goes too. Never rejects. */
  erased(drawId: string): Promise<void>
  /** The records are locked: nothing that names a patient stays. */
  forget(): void
  /** They are open again. */
  remember(): void
  readonly onChange: (observer: () => void) => () => void
}

/** A device that belongs to no clinic. */
export const noClinic: Clinic = {
  start: () => Promise.resolve(),
  view: () => undefined,
  isRead: () => true,
  dayEntries: () => [],
  draws: () => [],
  load: () => undefined,
  claim: () => Promise.resolve({ kind: 'ours' }),
  takeOver: () => Promise.resolve({ kind: 'refused', why: 'alone' }),
  wrote: () => undefined,
  erased: () => Promise.resolve(),
  forget: () => undefined,
  remember: () => undefined,
  onChange: () => () => undefined,
}
