import type { Page } from 'playwright-core'
import type { LogEntry } from '../../src/core/protocol/entry.ts'

/** The entries of the newest draw (or of the one named), read from the page's database beside the app. */
export async function readLog(page: Page, drawId?: string): Promise<readonly LogEntry[]> {
  const entries = await page.evaluate(async () => {
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
    const [keys, values] = await Promise.all([
      read(store.getAllKeys()),
      read<unknown[]>(store.getAll()),
    ])
    db.close()
    return keys.map((key, i) => ({
      drawId: String((key as [string, number])[0]),
      value: values[i],
    }))
  })
  const wanted = drawId ?? newestOf(entries)
  return entries
    .filter((entry) => entry.drawId === wanted)
    .map(({ value }) => value as LogEntry)
    .sort((a, b) => a.seq - b.seq)
}

interface Stored {
  readonly drawId: string
  readonly value: unknown
}

/** By the time of its opening: a number that was drawn by lot says nothing of when. */
function newestOf(entries: readonly Stored[]): string | undefined {
  const openings = entries.flatMap(({ drawId, value }) => {
    // What a PIN has sealed has neither event nor time.
    const { event, at } = value as Partial<LogEntry>
    return event?.type === 'drawOpened' && at ? [{ drawId, at_ms: at.at_ms }] : []
  })
  return openings.sort((a, b) => a.at_ms - b.at_ms).at(-1)?.drawId
}
