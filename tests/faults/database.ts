import type { Page } from 'playwright-core'
import type { DrawLog, LogEntry } from '../../src/core/protocol/entry.ts'
import type { FaultWindow } from './inPage.ts'
import type { Trial } from './trial.ts'

/** Opens a tab of the same origin that is not the app. */
export async function otherTab(trial: Trial): Promise<Page> {
  const page = await trial.context.newPage()
  await page.goto(`${trial.baseUrl}/manifest.webmanifest`)
  return page
}

/** Another tab keeps every store of the database to itself for as long as it is open. */
export async function holdDatabase(trial: Trial): Promise<{ close(): Promise<void> }> {
  const page = await otherTab(trial)
  await page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('stillhand')
        opening.onerror = () => reject(new Error('The database cannot be opened.'))
        opening.onsuccess = () => {
          const db = opening.result
          const tx = db.transaction([...db.objectStoreNames], 'readwrite')
          // A transaction lives for as long as it has something to do.
          const again = (): void => {
            tx.objectStore('settings').get('nothing').onsuccess = () => {
              resolve()
              again()
            }
          }
          again()
        }
      }),
  )
  return { close: () => page.close() }
}

/** Puts an entry into the newest draw beside the app. */
export async function putEntry(page: Page, entry: LogEntry): Promise<void> {
  await page.evaluate(
    (row) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('stillhand')
        opening.onerror = () => reject(new Error('The database cannot be opened.'))
        opening.onsuccess = () => {
          const db = opening.result
          const tx = db.transaction('entries', 'readwrite')
          const keys = tx.objectStore('entries').getAllKeys()
          keys.onsuccess = () => {
            const ids = keys.result.map((key) => String((key as [string, number])[0]))
            tx.objectStore('entries').put(row, [ids.sort().at(-1) ?? '', row.seq])
          }
          tx.oncomplete = () => {
            db.close()
            resolve()
          }
        }
      }),
    entry,
  )
}

/** Ids of the draws that are stored. */
export function storedDraws(page: Page): Promise<readonly string[]> {
  return page.evaluate(
    () =>
      new Promise<string[]>((resolve, reject) => {
        const opening = indexedDB.open('stillhand')
        opening.onerror = () => reject(new Error('The database cannot be opened.'))
        opening.onsuccess = () => {
          const db = opening.result
          const keys = db.transaction('draws').objectStore('draws').getAllKeys()
          keys.onsuccess = () => {
            db.close()
            resolve(keys.result.map(String))
          }
        }
      }),
  )
}

/** Stores whole draws beside the app, each with its line in the list. */
export async function putDraws(page: Page, logs: readonly DrawLog[]): Promise<void> {
  await page.evaluate(
    (draws) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('stillhand')
        opening.onerror = () => reject(new Error('The database cannot be opened.'))
        opening.onsuccess = () => {
          const db = opening.result
          const tx = db.transaction(['entries', 'draws'], 'readwrite')
          for (const { drawId, entries } of draws) {
            for (const entry of entries) tx.objectStore('entries').put(entry, [drawId, entry.seq])
            const first = entries[0]
            if (first?.event.type !== 'drawOpened') continue
            const row = {
              drawId,
              opened_ms: first.at.at_ms,
              closed: true,
              invented: first.event.invented,
              logVersion: 1,
              patientName: first.event.patient.fullName,
            }
            tx.objectStore('draws').put(row, drawId)
          }
          tx.oncomplete = () => {
            db.close()
            resolve()
          }
        }
      }),
    logs,
  )
}

/** Entries of the newest draw, read through the connection that the app has open. */
export function readThroughApp(page: Page): Promise<readonly LogEntry[]> {
  return page.evaluate(
    () =>
      new Promise<LogEntry[]>((resolve, reject) => {
        const db = (window as FaultWindow).stillhandFaults?.databases.at(-1)
        if (!db) return reject(new Error('The app has no database open.'))
        const rows = db.transaction('entries').objectStore('entries').getAll()
        rows.onerror = () => reject(new Error('The entries cannot be read.'))
        rows.onsuccess = () => resolve(rows.result as LogEntry[])
      }),
  )
}
