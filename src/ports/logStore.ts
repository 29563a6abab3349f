import type { DrawLog, LogEntry } from '../core/protocol/entry.ts'

export interface StoredDraw {
  readonly drawId: string
  readonly opened_ms: number
  readonly closed: boolean
  readonly patientName: string
  readonly invented: boolean
}

/** Keeps draws as append-only logs. Every method rejects with an Error whose message a person can read. */
export interface LogStore {
  /** Resolves only when the entries are safely written. Refuses a gap, a repeat or an overwrite. */
  append(drawId: string, entries: readonly LogEntry[]): Promise<void>
  load(drawId: string): Promise<DrawLog | undefined>
  list(): Promise<readonly StoredDraw[]>
  /**
   * Adds a verified foreign log whole, with the very text it came as, both or neither; refuses one whose draw is
   * already here.
   */
  adopt(log: DrawLog, original: string): Promise<void>
  /** The text a draw was brought in as; `undefined` for a draw that was recorded here. */
  original(drawId: string): Promise<string | undefined>
}
