import type { DrawClock } from '../core/protocol/clocks.ts'
import type { Stamp } from '../core/time/stamp.ts'

/** The clocks of a draw that is not ended, and nothing that names anybody: readable also while records are locked. */
export interface RunningRecord {
  readonly drawId: string
  readonly clocks: readonly DrawClock[]
  /** Of the draw's last entry. */
  readonly last: Stamp
  /** Cues that were called already, as the log names them. */
  readonly given: readonly string[]
}

/** Keeps them for a page that begins anew in the middle of a draw. Rejects with a `StorageError`. */
export interface RunningStore {
  put(record: RunningRecord): Promise<void>
  remove(drawId: string): Promise<void>
  list(): Promise<readonly RunningRecord[]>
}
