import 'fake-indexeddb/auto'
import { createConnection } from '../../src/adapters/storage/connection.ts'
import { createIndexedDbDayStore } from '../../src/adapters/storage/dayStore.ts'
import { createIndexedDbLogStore } from '../../src/adapters/storage/indexeddb.ts'
import { createIndexedDbRunningStore } from '../../src/adapters/storage/runningStore.ts'
import { createSealedRows } from '../../src/adapters/storage/sealedRows.ts'
import { sealStored } from '../../src/adapters/storage/sealStored.ts'
import { unsealStored } from '../../src/adapters/storage/unsealStored.ts'
import { createIndexedDbVaultStore } from '../../src/adapters/storage/vaultStore.ts'
import { createSimulatedClock } from '../../src/adapters/time/simulatedClock.ts'
import { createSystemClock } from '../../src/adapters/time/systemClock.ts'
import { createVault } from '../../src/adapters/crypto/vault.ts'
import { createMemoryDrawLocks } from '../../src/adapters/lock/memoryDrawLocks.ts'
import type { AppDeps } from '../../src/app/appDeps.ts'
import { appRig, type AppRig } from './appRig.ts'
import { SAMPLE_START_ms, sha256 } from './sampleLog.ts'
import { quickKey } from './vaults.ts'

/** One tablet: what is stored on it, for as many pages as are opened on it, one after another or at once. */
export interface Tablet {
  /** A new page, as after a reload: nothing is left in memory. Simulated time goes on from the page before. */
  page(change?: Partial<AppDeps>): Promise<AppRig>
}

/**
 * Lets the disk come to its end: many short waits, since on a busy machine one long wait may pass without this process
 * having had a turn.
 */
export async function quiet(): Promise<void> {
  for (let turn = 0; turn < 40; turn++) await new Promise((done) => setTimeout(done, 5))
}

let tablets = 0

export function tablet(): Tablet {
  const name = `tablet-${(tablets += 1)}`
  const locks = createMemoryDrawLocks()
  let pages = 0
  let wall_ms = SAMPLE_START_ms
  let last: AppRig | undefined
  return {
    page: async (change = {}) => {
      wall_ms = last?.clock.read().wall_ms ?? wall_ms
      const boot = `page-${(pages += 1)}`
      const clock = createSimulatedClock({ boot, mono_ms: 0, wall_ms, offset_min: 60 })
      // The disk answers in real time, so its patience is measured in it too.
      const connection = createConnection({ clock: createSystemClock(boot), name })
      const store = createIndexedDbVaultStore(connection)
      const vault = createVault({ clock, store, slowKey: quickKey })
      await vault.load()
      const rows = createSealedRows(vault)
      const deps: Partial<AppDeps> = {
        logStore: createIndexedDbLogStore(connection, sha256, rows),
        dayStore: createIndexedDbDayStore(connection, sha256, rows),
        runningStore: createIndexedDbRunningStore(connection),
        vault,
        sealStored: (onProgress) => sealStored(connection, rows, onProgress),
        unsealStored: (onProgress) => unsealStored(connection, rows, onProgress),
        drawLock: locks(),
        ...change,
      }
      const rig = (last = appRig(deps, clock))
      await rig.app.start()
      await quiet()
      return rig
    },
  }
}
