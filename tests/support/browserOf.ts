import { createMemoryDrawLocks } from '../../src/adapters/lock/memoryDrawLocks.ts'
import { createOtherPages } from '../../src/adapters/page/otherPages.ts'
import {
  createMemoryLogStore,
  createMemorySettingsStore,
} from '../../src/adapters/storage/memory.ts'
import { createMemoryRunningStore } from '../../src/adapters/storage/runningStore.ts'
import type { AppDeps } from '../../src/app/appDeps.ts'
import { appRig } from './appRig.ts'
import { sha256 } from './sampleLog.ts'

/** Channels of one browser: what one page tells all others hear in the same moment. */
export function oneBrowser() {
  const pages: { heard: (() => void)[] }[] = []
  return () => {
    const mine = { heard: [] as (() => void)[] }
    pages.push(mine)
    const channel = {
      postMessage: () =>
        pages.filter((page) => page !== mine).forEach(({ heard }) => heard.forEach((on) => on())),
      addEventListener: (_: string, on: () => void) => void mine.heard.push(on),
    }
    return createOtherPages(() => channel as unknown as BroadcastChannel, 'settings')
  }
}

/** Opens pages of one browser, which keep what they keep in one place. */
export function browserOf(change: Partial<AppDeps> = {}) {
  const settingsPages = oneBrowser()
  const drawLock = createMemoryDrawLocks()
  const kept = {
    settingsStore: createMemorySettingsStore(),
    logStore: createMemoryLogStore(sha256),
    runningStore: createMemoryRunningStore(),
  }
  return async () => {
    const page = { settingsPages: settingsPages(), drawLock: drawLock() }
    const rig = appRig({ ...kept, ...page, ...change })
    await rig.app.start()
    return rig
  }
}
