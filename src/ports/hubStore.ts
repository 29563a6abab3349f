import type { HubPosition, KeptHubEntry } from '../core/hub/hubEntry.ts'

/** How far the hub was read: in which of its pasts, and up to where. */
export interface HubRead {
  /** Counts up whenever the hub came back from an old copy of its disk and was read from its beginning. */
  readonly past: number
  readonly position: HubPosition
}

/** What this device remembers of a log of its own at the hub. */
export interface LogNote {
  readonly log: string
  /** So many entries stood at the hub when it was asked last. */
  readonly confirmed: number
  /** It took the log over from another device at some time. */
  readonly hasTaken: boolean
  /** It was taken off this device: nothing of it is kept again, however often the hub gives it. */
  readonly isErased?: true
}

/**
 * What this device keeps of the clinic's hub, so that it knows the others' records also while it is alone: the bytes as
 * they came, which only the clinic's key opens. Every method rejects with a `StorageError` and none waits without end.
 */
export interface HubStore {
  /** Where reading goes on; past 0 and the very beginning where nothing was read yet. */
  read(): Promise<HubRead>
  /**
   * Keeps entries and that it was read up to the last of them, both or neither. The same entry again changes nothing.
   */
  add(past: number, entries: readonly KeptHubEntry[]): Promise<void>
  /** Reading begins anew in a past of its own; what was kept of the earlier ones stays. */
  beginPast(past: number): Promise<void>
  /** Everything that is kept, pasts one after another, each in the order of its stream. */
  entries(): Promise<readonly { readonly past: number; readonly entry: KeptHubEntry }[]>
  notes(): Promise<readonly LogNote[]>
  /** That a log was erased stays noted. */
  note(note: LogNote): Promise<void>
  /** Forgets entries that the hub took before that time; how far it was read stays. */
  eraseBefore(at_ms: number): Promise<void>
  /**
   * Forgets what was read of one log for good: what comes of it later is not kept, though it counts as read. How far
   * the hub was read stays.
   */
  eraseLog(log: string): Promise<void>
  /** This device leaves the clinic: nothing stays. */
  clear(): Promise<void>
}
