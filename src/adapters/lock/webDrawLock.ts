import type { DrawLock, HeldDraw } from '../../ports/drawLock.ts'

/** What cannot be lost, where there are no locks: pages that write at one time still mend each other's log. */
const UNLOCKED: HeldDraw = { release: () => undefined }

/**
 * Holds draws by Web Locks, which the browser frees by itself when a page is closed or dies.
 * @param locks `navigator.locks`; absent on pages that are neither https nor localhost
 */
export function createWebDrawLock(locks: LockManager | undefined): DrawLock {
  const request = (
    drawId: string,
    options: LockOptions,
    onLost: () => void,
  ): Promise<HeldDraw | undefined> =>
    new Promise((resolve) => {
      if (!locks) {
        resolve(UNLOCKED)
        return
      }
      let isHeld = false
      let release = (): void => undefined
      const until = new Promise<void>((done) => (release = done))
      locks
        .request(`stillhand-draw-${drawId}`, options, (lock) => {
          isHeld = lock !== null
          resolve(isHeld ? { release } : undefined)
          return isHeld ? until : undefined
        })
        .catch(() => {
          // Rejected while it was held: another page has stolen it. Before that: this browser refuses locks.
          if (isHeld) onLost()
          else resolve(UNLOCKED)
        })
    })
  return {
    hold: (drawId, onLost) => request(drawId, { ifAvailable: true }, onLost),
    take: async (drawId, onLost) => (await request(drawId, { steal: true }, onLost)) ?? UNLOCKED,
  }
}
