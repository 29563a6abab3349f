import { sealBehind } from '../../src/core/log/sealBehind.ts'
import { readLog } from '../support/e2eLog.ts'
import { sha256 } from '../support/sampleLog.ts'
import { bandFault } from './bandFault.ts'
import { countStored, disk, goesWrong, isWell, since } from './disk.ts'
import { holdDatabase, otherTab, putEntry, readThroughApp } from './database.ts'
import { clickOn, GOES_ON } from './drive.ts'
import type { Fault } from './fault.ts'
import { confirm, inTools, lostFrom, lostFromFile, until } from './trial.ts'

const family = 'storage'
const UNSAVED = /^Not saved/
/** The step that follows the needle: nothing else needs to be said. */

/** Faults of the storage while the band is on. */
export const STORAGE_FAULTS: readonly Fault[] = [
  bandFault(family, {
    id: 'storageFull',
    did: 'Every write is refused with QuotaExceededError from the band on (injected at IDBObjectStore.add and put).',
    inject: goesWrong('full'),
    sees: UNSAVED,
    lost: lostFromFile,
  }),
  bandFault(family, {
    id: 'storageFullThenFree',
    did: 'The same for two steps, until room is made after 4 s.',
    inject: goesWrong('full'),
    sees: UNSAVED,
    after: async (trial) => {
      await confirm(trial)
      await isWell(trial)
    },
  }),
  bandFault(family, {
    id: 'storageClosed',
    did: 'The browser closes the open database connections (injected: IDBDatabase.close on each).',
    inject: async (trial) => {
      await inTools(trial.page, (tools) => tools.databases.forEach((db) => db.close()))
      await confirm(trial)
    },
    sees: GOES_ON,
  }),
  bandFault(family, {
    id: 'storageAborts',
    did: 'Every transaction is aborted after its first write, until the band has been on for its limit (injected: IDBTransaction.abort).',
    inject: goesWrong('aborts'),
    sees: UNSAVED,
    after: isWell,
  }),
  bandFault(family, {
    id: 'storageUnreadable',
    did: 'Every read fails with UnknownError, until the band has been on for its limit (injected at IDBObjectStore.get, getAll, openCursor).',
    inject: goesWrong('readFails'),
    sees: UNSAVED,
    after: isWell,
  }),
  bandFault(family, {
    id: 'storageHangs',
    did: 'Another tab holds the database in a transaction that does not end until the alarm has sounded (real).',
    inject: async (trial) => {
      const other = await holdDatabase(trial)
      const began = since()
      await confirm(trial)
      trial.helper = other
      return began
    },
    sees: UNSAVED,
    after: async (trial) => trial.helper?.close(),
  }),
  bandFault(family, {
    id: 'storageEvicted',
    did: 'The browser throws away everything that this page has stored (real: Storage.clearDataForOrigin).',
    inject: async (trial) => {
      const session = await trial.context.newCDPSession(trial.page)
      const began = since()
      await session.send('Storage.clearDataForOrigin', {
        origin: trial.baseUrl,
        storageTypes: 'indexeddb',
      })
      await confirm(trial)
      return began
    },
    sees: /browser has cleared what was stored/,
  }),
  bandFault(family, {
    id: 'runningRecordDamaged',
    did: 'One stored entry of the draw that runs is changed on the disk, and the page is loaded anew (real).',
    byHand: true,
    inject: async (trial) => {
      const [entry] = (await readLog(trial.page)).slice(3)
      if (entry) await putEntry(trial.page, { ...entry, by: 'somebody else' })
      await trial.page.reload()
      const ableFrom_ms = Date.now()
      await clickOn(trial.page, /^Go on with the draw of/)
      return { ableFrom_ms, since_ms: Date.now(), from: 'the limit' }
    },
    sees: /damaged from entry 4 on/,
    lost: (trial) => countStored(trial, 'store, the changed entry among them'),
  }),
  bandFault(family, {
    id: 'writtenByAnotherTab',
    did: 'Another tab writes a whole entry behind the last one of the draw that runs here (real, without the lock on the draw).',
    inject: async (trial) => {
      const other = await otherTab(trial)
      const last = (await readLog(trial.page)).at(-1)
      const foreign = last && sealBehind(last, [last], 'Written by another tab.', sha256)[0]
      if (foreign) await putEntry(other, foreign)
      const began = since()
      await confirm(trial)
      return began
    },
    sees: /Another page has written 1 entry/,
  }),
  bandFault(family, {
    id: 'newerVersionWaits',
    did: 'A newer version of the app in another tab asks for the database in mid-draw (real: it asks for version 9).',
    inject: async (trial) => {
      const other = await otherTab(trial)
      await other.evaluate(() => void indexedDB.open('stillhand', 9))
      trial.helper = { close: () => other.close() }
      const began = since()
      await confirm(trial)
      return began
    },
    sees: GOES_ON,
    after: async (trial) => {
      await confirm(trial)
      await trial.page.waitForTimeout(500)
    },
    // While the newer one waits nobody else can open the database.
    lost: async (trial) => lostFrom(trial, await readThroughApp(trial.page), 'store'),
  }),
  bandFault(family, {
    id: 'leavingUnsaved',
    did: 'The page is closed while entries are not saved (injected: storage full; the browser then asks, and the answer is to stay).',
    inject: async (trial) => {
      await disk(trial.page, 'full')
      await confirm(trial)
      const began = since()
      let asked = ''
      trial.page.once('dialog', (dialog) => {
        asked = dialog.type()
        void dialog.dismiss()
      })
      await trial.page.close({ runBeforeUnload: true })
      if (!(await until(() => Promise.resolve(asked === 'beforeunload'), 3000))) {
        throw new Error('The browser did not ask before the page was closed.')
      }
      return began
    },
    sees: UNSAVED,
    lost: lostFromFile,
  }),
]
