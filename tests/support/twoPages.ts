import { createMemoryDrawLocks } from '../../src/adapters/lock/memoryDrawLocks.ts'
import { createMemoryDayStore } from '../../src/adapters/storage/dayStore.ts'
import { createMemoryLogStore } from '../../src/adapters/storage/memory.ts'
import { appRig, type AppRig } from './appRig.ts'
import { sha256 } from './sampleLog.ts'

/** Two pages of one browser on one store, neither of them started. */
export function twoPages(): readonly [AppRig, AppRig] {
  const logStore = createMemoryLogStore(sha256)
  const dayStore = createMemoryDayStore(sha256)
  const page = createMemoryDrawLocks()
  const shared = { logStore, dayStore }
  return [appRig({ ...shared, drawLock: page() }), appRig({ ...shared, drawLock: page() })]
}
