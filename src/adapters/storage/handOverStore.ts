import { defined } from '../../core/basics/defined.ts'
import type { Leaving, Refusal } from '../../core/handOver/handOverRow.ts'
import type { HandOverStore, KeptRow } from '../../ports/handOverStore.ts'
import { StorageError } from '../../ports/storageFault.ts'
import { WRITE_PATIENCE_ms, type Connection } from './connection.ts'
import { inTransaction } from './inTransaction.ts'
import { PLAIN_ROWS, type HandOverRecord, type RowCodec } from './rows.ts'

/** What the words of a server are sealed for: no draw bears such a number. */
export const handOverContext = (key: string): string => `handOver/${key}`

/** Keeps in IndexedDB what is to be handed over, and what left. */
export function createIndexedDbHandOverStore(
  connection: Connection,
  codec: RowCodec = PLAIN_ROWS,
): HandOverStore {
  return {
    rows: async () => {
      const records = await connection.run((db) => db.getAll('handOver'))
      return Promise.all(records.map((record) => keptRow(codec, record)))
    },
    swap: async (behind, { refusal, ...row }) => {
      const told = refusal
        ? await codec.writeText(handOverContext(row.key), JSON.stringify(refusal))
        : undefined
      const record: HandOverRecord = defined({ revision: behind + 1, row, told })
      return connection.run(
        (db) =>
          inTransaction(db, ['handOver', 'vault'], async (tx) => {
            const rows = tx.objectStore('handOver')
            if (((await rows.get(row.key))?.revision ?? 0) !== behind) return false
            const isVaulted = (await tx.objectStore('vault').count()) > 0
            // A page that does not know of a PIN yet, or not of its end, must not write beside it.
            if (told !== undefined && isVaulted === (typeof told === 'string')) {
              throw new StorageError('locked', 'The PIN of this device has changed meanwhile.')
            }
            await rows.put(record, row.key)
            return true
          }),
        WRITE_PATIENCE_ms,
      )
    },
    leavings: async () => (await connection.run((db) => db.getAll('handOverLeft'))).toReversed(),
    note: (leaving, most_n) =>
      connection.run(
        (db) =>
          inTransaction(db, ['handOverLeft'], async (tx) => {
            const left = tx.objectStore('handOverLeft')
            await left.put(leaving, leaving.id)
            const keys = await left.getAllKeys()
            for (const key of keys.slice(0, Math.max(0, keys.length - most_n))) {
              await left.delete(key)
            }
          }),
        WRITE_PATIENCE_ms,
      ),
  }
}

async function keptRow(codec: RowCodec, { revision, row, told }: HandOverRecord): Promise<KeptRow> {
  if (told === undefined) return { revision, row }
  const refusal = JSON.parse(await codec.readText(handOverContext(row.key), told)) as Refusal
  return { revision, row: { ...row, refusal } }
}

/** Keeps it until the page is closed: for tests, and where the browser allows no storage. */
export function createMemoryHandOverStore(): HandOverStore {
  const rows = new Map<string, KeptRow>()
  const left = new Map<string, Leaving>()
  return {
    rows: () => Promise.resolve(structuredClone([...rows.values()].sort(byKey))),
    swap: (behind, row) => {
      const isBehind = (rows.get(row.key)?.revision ?? 0) === behind
      if (isBehind) rows.set(row.key, structuredClone({ row, revision: behind + 1 }))
      return Promise.resolve(isBehind)
    },
    leavings: () => Promise.resolve([...left.values()].sort((a, b) => (a.id < b.id ? 1 : -1))),
    note: (leaving, most_n) => {
      left.set(leaving.id, { ...leaving })
      const ids = [...left.keys()].sort()
      for (const id of ids.slice(0, Math.max(0, ids.length - most_n))) left.delete(id)
      return Promise.resolve()
    },
  }
}

const byKey = (a: KeptRow, b: KeptRow): number => (a.row.key < b.row.key ? -1 : 1)
