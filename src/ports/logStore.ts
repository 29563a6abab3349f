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
  /** Adds a verified foreign log whole; refuses one whose draw is already here. */
  adopt(log: DrawLog): Promise<void>
}
