import type { Stamp } from '../time/stamp.ts'
import type { DrawEvent } from './events.ts'

/** Where a confirmation came from. `clock` and `app` are the app's own. */
export const SOURCES = ['voice', 'touch', 'keys', 'scanner', 'clock', 'app'] as const
export type Source = (typeof SOURCES)[number]

/** What an entry is about: a fact of its own kind. */
export interface AnyEvent {
  readonly type: string
}

/** One line of a record, each closed onto the one before it. Entries are only ever added. */
export interface ChainEntry<E extends AnyEvent = AnyEvent> {
  /** 1, 2, 3, ... without a gap. */
  readonly seq: number
  readonly at: Stamp
  /** The collector's id. */
  readonly by: string
  readonly source: Source
  /** The words the recognizer heard, for voice entries. */
  readonly heard?: string
  /** It was said while the ears were held open; absent for all else, and in records from before there was that. */
  readonly held?: true
  readonly event: E
  /** SHA-256 (hex) of the entry before it; 64 zeros for the first. */
  readonly previous: string
  /** SHA-256 (hex) of this entry's canonical JSON without this field. */
  readonly hash: string
}

/** One line of a draw's record. */
export type LogEntry<E extends DrawEvent = DrawEvent> = ChainEntry<E>

/** An entry before the chain adds `previous` and `hash`. */
export type Unsealed<E extends AnyEvent> = Omit<ChainEntry<E>, 'previous' | 'hash'>

/** The part of an entry that the protocol gives. */
export type UnsealedEntry = Unsealed<DrawEvent>

/** A whole draw as it is stored and exported. */
export interface DrawLog {
  readonly format: 'stillhand-log'
  readonly version: 1
  readonly drawId: string
  readonly entries: readonly LogEntry[]
}
