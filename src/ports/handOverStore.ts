import type { HandOverRow, Leaving } from '../core/handOver/handOverRow.ts'

/** A row with the count of its changes. */
export interface KeptRow {
  readonly row: HandOverRow
  readonly revision: number
}

/** What is kept of handing over. Every method rejects with a `StorageError` and none waits without end. */
export interface HandOverStore {
  /** Rejects with `locked` while a PIN keeps what servers said. */
  rows(): Promise<readonly KeptRow[]>
  /** Puts a row behind exactly that revision, 0 for none; false where another page was first. */
  swap(behind: number, row: HandOverRow): Promise<boolean>
  /** What left, the latest first. */
  leavings(): Promise<readonly Leaving[]>
  /** Keeps a leaving, or its answer under the same id, and no more than so many of them. */
  note(leaving: Leaving, most_n: number): Promise<void>
}
