import type { Page } from 'playwright-core'
import type { LogEntry } from '../../src/core/protocol/entry.ts'

/**
 * The entries of the newest draw (or of the one named), read from the page's database beside the app. Only its own are
 * fetched: whoever waits for an entry asks ten times a second, and a day's store is large.
 */
export async function readLog(page: Page, drawId?: string): Promise<readonly LogEntry[]> {
  const entries = await page.evaluate(async (named) => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('stillhand')
      opening.onsuccess = () => resolve(opening.result)
      opening.onerror = () => reject(new Error('The database cannot be opened.'))
      opening.onupgradeneeded = () => reject(new Error('The app has made no database.'))
    })
    const store = db.transaction('entries').objectStore('entries')
    const read = <T>(request: IDBRequest<T>): Promise<T> =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(new Error('The entries cannot be read.'))
      })
    /** By the time of its opening: a number that was drawn by lot says nothing of when. */
    const newest = async (): Promise<string | undefined> => {
      const keys = (await read(store.getAllKeys())) as [drawId: string, seq: number][]
      const firsts = keys.filter(([drawId], i) => keys[i - 1]?.[0] !== drawId)
      const openings = await Promise.all(
        firsts.map(async (key) => {
          // What a PIN has sealed has neither event nor time.
          const { event, at } = (await read<unknown>(store.get(key))) as Partial<LogEntry>
          return event?.type === 'drawOpened' && at ? [{ drawId: key[0], at_ms: at.at_ms }] : []
        }),
      )
      return openings
        .flat()
        .sort((a, b) => a.at_ms - b.at_ms)
        .at(-1)?.drawId
    }
    const wanted = named ?? (await newest())
    const own = wanted === undefined ? [] : await read<unknown[]>(store.getAll(IDBKeyRange.bound([wanted], [wanted, []]))) // prettier-ignore
    db.close()
    return own
  }, drawId)
  return (entries as LogEntry[]).sort((a, b) => a.seq - b.seq)
}

/** How many entries, or draws, are stored. */
export const stored_n = (page: Page, store: 'entries' | 'draws'): Promise<number> =>
  page.evaluate(
    (of) =>
      new Promise<number>((resolve, reject) => {
        const opening = indexedDB.open('stillhand')
        opening.onerror = () => reject(new Error('The database cannot be opened.'))
        opening.onsuccess = () => {
          const db = opening.result
          const counting = db.transaction(of).objectStore(of).count()
          counting.onerror = () => reject(new Error('What is stored cannot be counted.'))
          counting.onsuccess = () => {
            db.close()
            resolve(counting.result)
          }
        }
      }),
    store,
  )
