import type { RunningRecord, RunningStore } from '../../ports/runningStore.ts'
import { WRITE_PATIENCE_ms, type Connection } from './connection.ts'

export function createIndexedDbRunningStore(connection: Connection): RunningStore {
  return {
    put: (record) =>
      connection.run(async (db) => {
        await db.put('running', record, record.drawId)
      }, WRITE_PATIENCE_ms),
    remove: (drawId) => connection.run((db) => db.delete('running', drawId), WRITE_PATIENCE_ms),
    list: () => connection.run((db) => db.getAll('running')),
  }
}

export function createMemoryRunningStore(): RunningStore {
  const records = new Map<string, RunningRecord>()
  return {
    put: (record) => Promise.resolve(void records.set(record.drawId, structuredClone(record))),
    remove: (drawId) => Promise.resolve(void records.delete(drawId)),
    list: () => Promise.resolve([...records.values()]),
  }
}
