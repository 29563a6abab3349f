import type { CheckedLog } from '../core/log/readStored.ts'
import type { DrawLog, LogEntry } from '../core/protocol/entry.ts'

export interface StoredDraw {
  readonly drawId: string
  readonly opened_ms: number
  readonly closed: boolean
  readonly patientName: string
  readonly invented: boolean
  /** Id of the draw with which the series began that it belongs to. */
  readonly series?: string
  /** Orders of the day's list that it serves. */
  readonly listed?: readonly string[]
  /** So many entries its log had when it was written last; missing in rows from before that was kept. */
  readonly entries?: number
}

/** So long a claim keeps others away. */
export const CLAIM_ms = 30_000

/** Keeps draws as append-only logs. Every method rejects with a `StorageError` and never waits without end. */
export interface LogStore {
  /**
   * Resolves only when the entries are safely written. Entries that are already there with the same hash are as good
   * as written, so a write may be tried again; a gap, another entry in the same place or an overwrite is refused.
   */
  append(drawId: string, entries: readonly LogEntry[]): Promise<void>
  /** The draw in today's format with the first fault of its chain, if it has one. Older formats are brought up. */
  load(drawId: string): Promise<CheckedLog | undefined>
  list(): Promise<readonly StoredDraw[]>
  /**
   * Adds a verified foreign log whole, with the very text it came as, both or neither; refuses one whose draw is
   * already here.
   */
  adopt(log: DrawLog, original: string): Promise<void>
  /** The text a draw was brought in as; `undefined` for a draw that was recorded here. */
  original(drawId: string): Promise<string | undefined>
  /** Takes a draw out with everything that belongs to it. Its number stays given. */
  erase(drawId: string): Promise<void>
  /**
   * Gives the next number of a device's day, from 1, and remembers it for ever: no number is given twice, also not to
   * two tabs in one moment, to a draw that failed, or after the draw was erased.
   * @param day `2026-11-25`
   */
  reserveNumber(prefix: string, day: string): Promise<number>
  /**
   * Claims the beginning of one draw of a series: looks and writes in one step, so that of two pages one is refused,
   * also in a browser without locks. A claim is spent after `CLAIM_ms`; by then its draw is stored.
   * @param key what is claimed, the same for every page
   * @returns whether it is ours
   */
  claim(key: string, now_ms: number): Promise<boolean>
}
