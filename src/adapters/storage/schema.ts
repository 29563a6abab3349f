import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from 'idb'
import { countOf, readDrawId } from '../../core/protocol/drawId.ts'
import type { KeptHubEntry } from '../../core/hub/hubEntry.ts'
import type { HubRead, LogNote } from '../../ports/hubStore.ts'
import type { Leaving } from '../../core/handOver/handOverRow.ts'
import type { RunningRecord } from '../../ports/runningStore.ts'
import type { VaultRecord } from '../../ports/vault.ts'
import type { EntryRow, HandOverRecord, NameRow, TextRow } from './rows.ts'

/** A draw in the list, with the format its entries are in. */
export interface DrawRow extends NameRow {
  readonly drawId: string
  readonly opened_ms: number
  readonly closed: boolean
  readonly invented: boolean
  readonly series?: string
  readonly listed?: readonly string[]
  readonly entries?: number
  readonly logVersion: number
}

/** An entry of the clinic's hub as it came, and of which of the hub's pasts it is. */
export interface HubRow {
  readonly past: number
  readonly entry: KeptHubEntry
}

export interface StillhandSchema extends DBSchema {
  /** One record an entry; the key makes a second entry with one number impossible, also from another tab. */
  entries: { key: [drawId: string, seq: number]; value: EntryRow }
  draws: { key: string; value: DrawRow }
  settings: { key: string; value: string }
  /** The text of a draw that was brought in, as it came: the evidence its signature is over. */
  originals: { key: string; value: TextRow }
  /** The last number given, by `prefix-day`. Kept for ever. */
  numbers: { key: string; value: number }
  /** The entries of a draw as they were before an upgrade brought them to a newer format. */
  superseded: { key: [drawId: string, version: number]; value: readonly EntryRow[] }
  /** One record: the data key, wrapped. While it is there nothing that names a patient is written in plain. */
  vault: { key: string; value: VaultRecord }
  /** One record an entry of the log of a day. */
  days: { key: [day: string, seq: number]; value: EntryRow }
  /** Clocks of draws that are not ended; they name nobody. */
  running: { key: string; value: RunningRecord }
  /** What other devices sent, sealed under the clinic's key. */
  hubEntries: { key: [past: number, sequence: number]; value: HubRow }
  /** How far the hub was read: one record. */
  hubRead: { key: string; value: HubRead }
  hubNotes: { key: string; value: LogNote }
  /** What is to be handed over to the site's record server, and how it stands. */
  handOver: { key: string; value: HandOverRecord }
  /** What left the device; it names nobody. */
  handOverLeft: { key: string; value: Leaving }
}
export type Database = IDBPDatabase<StillhandSchema>

export const DATABASE_VERSION = 7

/** `strict`: the promise of a transaction resolves only when the data is on the disk. */
export const STRICT: IDBTransactionOptions = { durability: 'strict' }

/** Every entry number is at least 1 and below any text, which sorts after all numbers. */
export const entriesOf = (drawId: string, from = 0): IDBKeyRange =>
  IDBKeyRange.bound([drawId, from], [drawId, ''])

/** Every entry of that day and of later ones. */
export const daysFrom = (day: string): IDBKeyRange => IDBKeyRange.lowerBound([day, 0])

export const numberKey = (prefix: string, day: string): string =>
  `${prefix}-${day.replaceAll('-', '')}`

type Upgrade = IDBPTransaction<StillhandSchema, StoreNames<StillhandSchema>[], 'versionchange'>

/** Brings a database of any earlier version to this one, within the one transaction that the browser gives for it. */
export async function upgradeDatabase(db: Database, from: number, tx: Upgrade): Promise<void> {
  if (from < 1) {
    db.createObjectStore('entries')
    db.createObjectStore('draws')
    db.createObjectStore('settings')
  }
  if (from < 2) db.createObjectStore('originals')
  if (from < 3) {
    db.createObjectStore('numbers')
    db.createObjectStore('superseded')
    await rowsBeforeVersion3(tx)
  }
  if (from < 4) {
    db.createObjectStore('vault')
    db.createObjectStore('running')
  }
  if (from < 5) db.createObjectStore('days')
  if (from < 6) {
    db.createObjectStore('hubEntries')
    db.createObjectStore('hubRead')
    db.createObjectStore('hubNotes')
  }
  if (from < 7) {
    db.createObjectStore('handOver')
    db.createObjectStore('handOverLeft')
  }
}

/** Earlier versions knew only one format of the log, and counted the stored draws to find the next number. */
async function rowsBeforeVersion3(tx: Upgrade): Promise<void> {
  const last = new Map<string, number>()
  for (const row of await tx.objectStore('draws').getAll()) {
    await tx.objectStore('draws').put({ ...row, logVersion: 1 }, row.drawId)
    const id = readDrawId(row.drawId)
    const count = countOf(row.drawId)
    if (!id || count === undefined) continue
    const key = numberKey(id.prefix, id.day)
    last.set(key, Math.max(count, last.get(key) ?? 0))
  }
  for (const [key, count] of last) await tx.objectStore('numbers').put(count, key)
}
