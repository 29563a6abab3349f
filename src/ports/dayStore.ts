import type { DayEntry } from '../core/day/dayEvents.ts'
import type { DayLog } from '../core/day/dayLog.ts'

/** How far the log of a day has come. */
export interface DayEnd {
  /** `2026-11-26` */
  readonly day: string
  readonly entries: number
}

/** Keeps the logs of days, append-only. Every method rejects with a `StorageError` and never waits without end. */
export interface DayStore {
  /**
   * Resolves only when the entries are safely written. Entries that are already there with the same hash are as good
   * as written, so a write may be tried again; a gap, another entry in the same place or an overwrite is refused.
   */
  append(day: string, entries: readonly DayEntry[]): Promise<void>
  /** The log of a day, checked, with its first fault if it has one; empty where there is none. */
  load(day: string): Promise<DayLog>
  /** Days from that one on that have a log, oldest first; cheap, so that it may be asked again and again. */
  ends(from: string): Promise<readonly DayEnd[]>
  /** Takes every day before that one off the device. */
  eraseBefore(day: string): Promise<void>
}
