import type { IDBPTransaction, StoreNames } from 'idb'
import { STRICT, type Database, type StillhandSchema } from './schema.ts'

type Names = readonly StoreNames<StillhandSchema>[]
type Writing<S extends Names> = IDBPTransaction<StillhandSchema, [...S], 'readwrite'>

/** Does all of the work or none of it; resolves only when it is on the disk. */
export async function inTransaction<S extends Names, T>(
  db: Database,
  stores: S,
  work: (tx: Writing<S>) => Promise<T>,
): Promise<T> {
  const tx = db.transaction([...stores], 'readwrite', STRICT) as Writing<S>
  // Also waited for when a request fails, so that an aborted transaction never is an unhandled rejection.
  const done = tx.done
  done.catch(() => undefined)
  let result: T
  try {
    result = await work(tx)
  } catch (error) {
    abort(tx)
    throw error
  }
  await done
  return result
}

function abort(tx: { abort(): void }): void {
  try {
    tx.abort()
  } catch {
    // It had already ended; there is nothing left to undo.
  }
}
