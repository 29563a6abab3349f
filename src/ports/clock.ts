import type { Reading } from '../core/time/stamp.ts'

/** Reads both clocks and wakes the caller near a monotonic time. */
export interface Clock {
  read(): Reading
  /** Minutes east of UTC of local time at any moment, ms since 1970 UTC: it may change within a day. */
  offsetAt_min(at_ms: number): number
  /** Calls back once at `mono_ms` of this boot or as soon after as the machine allows; returns a way to cancel. */
  wakeAt(mono_ms: number, wake: () => void): () => void
}
