import type { HubEntry, HubEntryKind, HubPosition } from '../core/hub/hubEntry.ts'
import type { HubRefusal } from './hubFault.ts'

export type { HubEntry, HubEntryKind, HubPosition }

/** Times are those of this device's own clock. Working alone is no error: the draw never waits for a hub. */
export type HubState =
  | { readonly kind: 'off' }
  /** On the way for the first time since it was started. */
  | { readonly kind: 'connecting' }
  | { readonly kind: 'connected'; readonly since_ms: number }
  /** It tries again for ever, at growing intervals. */
  | { readonly kind: 'alone'; readonly since_ms: number }
  /** Somebody has to do something; it tries again, seldom. */
  | { readonly kind: 'refused'; readonly why: HubRefusal; readonly since_ms: number }

/**
 * `stale`: something else stands in that place, nothing was written. `next` is what stands behind the entry that was
 * named, told by the hub itself: **compare it with what was to be written**, since a lost answer looks like this too.
 * Without `next` the hub has less than the caller believed: it came back from an old copy, and the log has to be gone
 * through from its beginning.
 */
export type Appended =
  | { readonly kind: 'stored'; readonly sequence: number; readonly at_ms?: number }
  | { readonly kind: 'stale'; readonly next?: HubEntry }

/** Which entries: of one log, of one kind, or all. */
export interface HubScope {
  readonly log?: string
  readonly kind?: HubEntryKind
}

export interface HubWatcher {
  /** Each entry once, in the order of the stream. @param waiting_n so many are known to come after it */
  entry(entry: HubEntry, waiting_n: number): void
  /** Everything that was there has been given; again after each new connection. */
  caughtUp?(): void
  /** The hub holds another past than before: everything comes again from the first entry. */
  rewound?(): void
}

export interface KeyValue {
  readonly key: string
  readonly revision: number
  readonly at_ms: number
  readonly bytes: Uint8Array
}

/** `stale`: somebody was first. `now` is what stands there, absent where nothing does. */
export type Put =
  | { readonly kind: 'stored'; readonly revision: number }
  | { readonly kind: 'stale'; readonly now?: KeyValue }

/** Small values that devices share, the last one counts: claims, what the site has set. None is ever taken away. */
export interface HubKeys {
  /** @param key two parts or more, `claim/KM47-L3`; the first says what it is about */
  get(key: string): Promise<KeyValue | undefined>
  /** Writes over exactly the value of that revision, 0 for none: of two devices one is refused. */
  put(key: string, bytes: Uint8Array, revision: number): Promise<Put>
  /** All values whose key begins with this part, then each change; after each new connection all of them again. */
  watch(first: string, onValue: (value: KeyValue) => void, onAll?: () => void): () => void
}

/**
 * The clinic's hub as one device sees it: a stream of entries in one order, in logs that grow only behind the entry
 * the writer names. It holds bytes that it cannot read.
 *
 * Every promise rejects with a `HubError` and none waits without end. Whoever writes keeps its own log and goes
 * through it again after each new connection (`last`): a hub that said yes may come back without what it took.
 */
export interface Hub {
  state(): HubState
  onState(observer: (state: HubState) => void): () => void
  /** Begins to connect, again and again until it is stopped. */
  start(): void
  /** Everything that waits is rejected as `stopped`; watchers end. May be started again. */
  stop(): Promise<void>
  /**
   * Writes one entry behind the last one of its log. Two devices that write to one log at one time: one is stored.
   * @param behind sequence of the log's last entry, whoever wrote it; 0 for the first
   */
  append(log: string, kind: HubEntryKind, bytes: Uint8Array, behind: number): Promise<Appended>
  /** The last entry of a log, asked of whoever decides and not of a copy. */
  last(log: string): Promise<HubEntry | undefined>
  /** What stands after that sequence, whole: no entry of a log is missing in between. */
  read(scope: HubScope, after: number): Promise<readonly HubEntry[]>
  /** Follows from there on, over broken connections, until the returned function is called. */
  watch(scope: HubScope, after: HubPosition, watcher: HubWatcher): () => void
  readonly keys: HubKeys
  /** Asks whoever answers those who want to join; rejects as `noAnswer`. All that a joining pass allows. */
  ask(bytes: Uint8Array): Promise<Uint8Array>
  /** Answers those who ask; `undefined` leaves a question to others. */
  onAsk(answer: (bytes: Uint8Array) => Promise<Uint8Array | undefined>): () => void
}
