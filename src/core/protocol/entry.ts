import type { Stamp } from '../time/stamp.ts'
import type { DrawEvent } from './events.ts'

/** Where a confirmation came from. `clock` and `app` are the app's own. */
export const SOURCES = ['voice', 'touch', 'keys', 'scanner', 'clock', 'app'] as const
export type Source = (typeof SOURCES)[number]

/** One line of a draw's record. Entries are only ever added. */
export interface LogEntry<E extends DrawEvent = DrawEvent> {
  /** 1, 2, 3, ... without a gap. */
  readonly seq: number
  readonly at: Stamp
  /** The collector's id. */
  readonly by: string
  readonly source: Source
  /** The words the recognizer heard, for voice entries. */
  readonly heard?: string
  readonly event: E
  /** SHA-256 (hex) of the entry before it; 64 zeros for the first. */
  readonly previous: string
  /** SHA-256 (hex) of this entry's canonical JSON without this field. */
  readonly hash: string
}

/** The part of an entry that the protocol gives; the chain adds `previous` and `hash`. */
export type UnsealedEntry = Omit<LogEntry, 'previous' | 'hash'>

/** A whole draw as it is stored and exported. */
export interface DrawLog {
  readonly format: 'stillhand-log'
  readonly version: 1
  readonly drawId: string
  readonly entries: readonly LogEntry[]
}
