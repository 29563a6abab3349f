/** One name for all pages of the app; many are busy at a time, and one takes a version while none is. */
const NAME = 'stillhand-busy'

export interface BusyLock {
  setBusy(busy: boolean): void
  /** Does the work while no page is busy; `undefined` where one is. A page that becomes busy meanwhile is not held. */
  whileNoneIs<T>(work: () => Promise<T>): Promise<T | undefined>
}

/**
 * Tells the pages of one browser of each other by Web Locks, which end with their page.
 * @param locks `navigator.locks`; where there is none each page is taken for the only one
 */
export function createBusyLock(locks: LockManager | undefined): BusyLock {
  let release: (() => void) | undefined
  return {
    setBusy(busy) {
      if (busy === (release !== undefined)) return
      release?.()
      release = undefined
      if (!busy) return
      const until = new Promise<void>((done) => (release = done))
      locks?.request(NAME, { mode: 'shared' }, () => until).catch(() => undefined)
    },
    whileNoneIs: (work) =>
      locks
        ? locks.request(NAME, { ifAvailable: true }, (lock) => (lock ? work() : undefined))
        : work(),
  }
}
