/** What the service worker looks into for files that its own version does not have. */
const KEPT = 'assets-before'

/**
 * Keeps the files of the version that is being left: a page that still runs it may need one for the first time, such
 * as the worker that reads an order, and no server has it any more.
 * @param prefix the beginning of the addresses of files that belong to one version
 */
export async function keepOldFiles(stores: CacheStorage, prefix: string): Promise<void> {
  const names = await stores.keys()
  const old = names.filter((name) => name !== KEPT)
  await stores.delete(KEPT)
  const kept = await stores.open(KEPT)
  for (const name of old) {
    const store = await stores.open(name)
    for (const request of await store.keys()) {
      if (!request.url.startsWith(prefix)) continue
      const answer = await store.match(request)
      if (answer) await kept.put(request.url.split('?')[0] ?? request.url, answer)
    }
  }
}
