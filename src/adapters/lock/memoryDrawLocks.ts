import type { DrawLock, HeldDraw } from '../../ports/drawLock.ts'

/** Locks of several pages within one process, for tests; each call gives the lock as one page sees it. */
export function createMemoryDrawLocks(): () => DrawLock {
  const holders = new Map<string, { readonly onLost: () => void }>()
  const holdNow = (drawId: string, onLost: () => void): HeldDraw => {
    const holder = { onLost }
    holders.set(drawId, holder)
    return {
      release: () => {
        if (holders.get(drawId) === holder) holders.delete(drawId)
      },
    }
  }
  return () => ({
    hold: (drawId, onLost) =>
      Promise.resolve(holders.has(drawId) ? undefined : holdNow(drawId, onLost)),
    take: (drawId, onLost) => {
      const before = holders.get(drawId)
      const held = holdNow(drawId, onLost)
      before?.onLost()
      return Promise.resolve(held)
    },
  })
}
