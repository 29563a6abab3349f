type Granted = (lock: Lock | null) => unknown

/**
 * Web Locks within one process, as far as the app uses them: `ifAvailable` and `steal`, exclusive, no queue.
 * After the algorithms of the W3C Web Locks API, from memory; the real thing is tested in Chromium.
 */
export function fakeLockManager(): LockManager {
  const held = new Map<string, { readonly reject: (reason: Error) => void }>()
  const request = (name: string, options: LockOptions, granted: Granted): Promise<unknown> =>
    new Promise((resolve, reject) => {
      const before = held.get(name)
      if (before && !options.steal) {
        Promise.resolve(granted(null)).then(resolve, reject)
        return
      }
      before?.reject(new DOMException('The lock was stolen.', 'AbortError'))
      const mine = { reject }
      held.set(name, mine)
      const free = (): void => {
        if (held.get(name) === mine) held.delete(name)
      }
      Promise.resolve(granted({ name, mode: 'exclusive' }))
        .then(resolve, reject)
        .finally(free)
    })
  return { request, query: () => Promise.resolve({}) } as unknown as LockManager
}
