import type { Page } from 'playwright-core'
import type { DrawLog } from '../../src/core/protocol/entry.ts'

/** So many draws at once: their text goes through the protocol of the browser. */
const AT_ONCE_n = 100

/** Lays draws into the store of the page as if they had been drawn there. The app must have opened it before. */
export async function layDraws(page: Page, logs: readonly DrawLog[]): Promise<void> {
  for (let at = 0; at < logs.length; at += AT_ONCE_n) {
    await page.evaluate(
      async (part) => {
        const db = await new Promise<IDBDatabase>((resolve, reject) => {
          const open = indexedDB.open('stillhand')
          open.onsuccess = () => resolve(open.result)
          open.onerror = () => reject(new Error('The store does not open.'))
        })
        const tx = db.transaction(['entries', 'draws'], 'readwrite')
        for (const { drawId, entries } of part) {
          for (const entry of entries) tx.objectStore('entries').put(entry, [drawId, entry.seq])
          const first = entries[0]
          if (first?.event.type !== 'drawOpened') continue
          const { invented, patient } = first.event
          const closed = entries.some(({ event }) => event.type === 'drawClosed')
          const row = { drawId, opened_ms: first.at.at_ms, closed, invented, patientName: patient.fullName, logVersion: 1 } // prettier-ignore
          tx.objectStore('draws').put(row, drawId)
        }
        await new Promise<void>((resolve, reject) => {
          tx.oncomplete = () => resolve()
          tx.onerror = () => reject(new Error('The draws were not laid.'))
        })
        db.close()
      },
      logs.slice(at, at + AT_ONCE_n),
    )
  }
}
