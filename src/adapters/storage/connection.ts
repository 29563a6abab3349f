import { openDB } from 'idb'
import { createEmitter } from '../../core/basics/emitter.ts'
import type { Clock } from '../../ports/clock.ts'
import { wakeIn, within } from '../../ports/patience.ts'
import { StorageError } from '../../ports/storageFault.ts'
import { DATABASE_VERSION, upgradeDatabase, type Database } from './schema.ts'
import type { StillhandSchema } from './schema.ts'
import { storageErrorOf, wasCut } from './storageErrors.ts'

/** After this a write counts as not done. It may be done later all the same: stores know an entry again by its hash. */
export const WRITE_PATIENCE_ms = 2000
/** A tab that is asked to let an older version go does so in a moment, or not at all. */
const BLOCKED_PATIENCE_ms = 500
/** Reading two thousand draws on a slow tablet takes longer than writing one entry. */
const READ_PATIENCE_ms = 10_000

/** The way to the database of this device: opened on first use, and again whenever it was cut. */
export interface Connection {
  /**
   * Works on the open database. A cut connection is opened again and the work done once more, so work must bear
   * that: what was written already must not be written twice.
   * @throws StorageError, `hanging` when there is no answer within the patience.
   */
  run<T>(work: (db: Database) => Promise<T>, patience_ms?: number): Promise<T>
  close(): void
}

const otherTab = (): StorageError =>
  new StorageError('blocked', 'Another tab keeps an older version open.')

export interface ConnectionOptions {
  readonly clock: Clock
  readonly name?: string
  /** A newer version of the app in another tab wants the database. False while a draw runs here; asked again later. */
  readonly mayLetGo?: () => boolean
}

export function createConnection(options: ConnectionOptions): Connection {
  const { clock, name = 'stillhand', mayLetGo = () => true } = options
  let opening: Promise<Database> | undefined
  let blocked = false
  const isBlocked = createEmitter<undefined>()
  let wanted = false

  const forget = (): void => {
    const old = opening
    opening = undefined
    void old?.then(
      (db) => db.close(),
      () => undefined,
    )
  }

  const letGoIfWanted = (): void => {
    if (!wanted || !mayLetGo()) return
    wanted = false
    forget()
  }

  function open(): Promise<Database> {
    if (opening) return opening
    const mine: Promise<Database> = openDB<StillhandSchema>(name, DATABASE_VERSION, {
      upgrade: (db, from, _to, tx) => {
        // What has been opened is not waited for by the library: a failure must undo all of it.
        tx.done.catch(() => undefined)
        upgradeDatabase(db, from, tx).catch(() => tx.abort())
      },
      blocked: () => {
        blocked = true
        isBlocked.emit(undefined)
      },
      blocking: () => {
        wanted = true
        letGoIfWanted()
      },
      terminated: () => {
        if (opening === mine) opening = undefined
      },
    })
    opening = mine
    const settled = (): void => void (blocked = false)
    mine.then(settled, () => {
      settled()
      if (opening === mine) opening = undefined
    })
    return mine
  }

  /** An older tab in the way is told of soon, because only a person can close it; the opening itself goes on. */
  function openUnlessBlocked(): Promise<Database> {
    const opened = open()
    return new Promise((resolve, reject) => {
      const ends: (() => void)[] = []
      const wait = (): void =>
        void ends.push(wakeIn(clock, BLOCKED_PATIENCE_ms, () => reject(otherTab())))
      ends.push(isBlocked.observe(wait))
      if (blocked) wait()
      opened.then(resolve, reject).finally(() => ends.forEach((end) => end()))
    })
  }

  async function attempt<T>(work: (db: Database) => Promise<T>, mayRepeat: boolean): Promise<T> {
    const db = await openUnlessBlocked()
    try {
      return await work(db)
    } catch (error) {
      if (!mayRepeat || !wasCut(error)) throw error
      forget()
      return attempt(work, false)
    }
  }

  return {
    run: async (work, patience_ms = READ_PATIENCE_ms) => {
      try {
        return await within(clock, patience_ms, attempt(work, true), () => {
          if (blocked) return otherTab()
          // The next attempt is made on a connection of its own.
          forget()
          return new StorageError('hanging', `No answer from the database in ${patience_ms} ms.`)
        })
      } catch (error) {
        throw storageErrorOf(error)
      } finally {
        letGoIfWanted()
      }
    },
    close: forget,
  }
}
