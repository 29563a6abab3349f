import type { Clock } from '../../../ports/clock.ts'

const LOCK = 'stillhand-recognizer'
/** A lock that was given up a moment ago is free again after this, ms. */
const PATIENCE_ms = 300

/** The right to use the engine's one database, which two pages would both write. */
export interface PageLock {
  /**
   * Resolves when the right is had; calls `onWait` if another page keeps it. Without locks in this browser it is had
   * at once. Never resolves after `release`.
   */
  take(onWait: () => void): Promise<void>
  release(): void
}

export function createPageLock(clock: Clock): PageLock {
  let ended = new AbortController()
  return {
    async take(onWait) {
      const locks: LockManager | undefined = globalThis.navigator?.locks
      if (!locks) return
      const { signal } = (ended = new AbortController())
      const cancel = clock.wakeAt(clock.read().mono_ms + PATIENCE_ms, onWait)
      signal.addEventListener('abort', cancel)
      await new Promise<void>((taken) => {
        const keep = (): Promise<void> => {
          cancel()
          taken()
          return new Promise((done) => signal.addEventListener('abort', () => done()))
        }
        // Ends with an error when it is given up while still waiting, which is what was wanted.
        locks.request(LOCK, { signal }, keep).catch(() => undefined)
      })
    },
    release: () => ended.abort(),
  }
}
