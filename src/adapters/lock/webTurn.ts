import type { Turn } from '../../ports/turn.ts'

/**
 * Keeps the turn by a Web Lock until the page is closed; the browser gives it to the next one.
 * @param locks `navigator.locks`; absent on pages that are neither https nor localhost
 */
export function createWebTurn(locks: LockManager | undefined, name: string): Turn {
  let isOurs = !locks
  let isAsked = false
  return {
    isOurs: () => isOurs,
    ask: (onOurs) => {
      if (isAsked) return
      isAsked = true
      const take = (): void => {
        isOurs = true
        onOurs()
      }
      if (!locks) return take()
      const forEver = new Promise<never>(() => undefined)
      locks
        .request(`stillhand-turn-${name}`, () => {
          take()
          return forEver
        })
        // This browser refuses locks: then sending twice is harmless, and not sending is not.
        .catch(take)
    },
  }
}
