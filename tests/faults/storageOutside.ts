import { readLog } from '../support/e2eLog.ts'
import { countStored, disk, isWell, since } from './disk.ts'
import { holdDatabase, putEntry } from './database.ts'
import { clickOn, see } from './drive.ts'
import type { Fault } from './fault.ts'
import { alarmOf, confirm, drawTo, lostFromStore, startDraw } from './trial.ts'

const family = 'storage'
const UNSAVED = /^Not saved/

/** Faults of the storage before, at the ends of, and after a draw. */
export const STORAGE_OUTSIDE_FAULTS: readonly Fault[] = [
  {
    id: 'storageHangsAtOpening',
    family,
    did: 'The same while a draw is begun (real).',
    run: async (stage) => {
      const trial = await stage.trial()
      await clickOn(trial.page, 'Try the invented demo')
      await clickOn(trial.page, 'Plan the tubes')
      const other = await holdDatabase(trial)
      const { since_ms } = since()
      await clickOn(trial.page, 'Start the draw')
      const seen = await see(trial.page, /storage of this device does not answer/, since_ms)
      const step = trial.page.locator('.draw #step-instruction')
      await step.waitFor()
      await drawTo(trial, 'needle in')
      const band = await alarmOf(trial)
      await other.close()
      return { seen, band, lost: await lostFromStore(trial) }
    },
  },
  {
    id: 'storageHangsAtClose',
    family,
    did: 'The same while a draw is closed (real).',
    long: true,
    run: async (stage) => {
      const trial = await stage.trial()
      await startDraw(trial)
      await drawTo(trial, 'samples stored')
      const other = await holdDatabase(trial)
      await trial.page.locator('.draw:not([data-held])').waitFor()
      const { since_ms } = since()
      await confirm(trial)
      const seen = await see(trial.page, UNSAVED, since_ms)
      await other.close()
      return { seen, band: 'not running', lost: await lostFromStore(trial) }
    },
  },
  {
    id: 'otherRecordDamaged',
    family,
    did: 'One stored entry of a closed draw is changed on the disk, and its record opened (real).',
    long: true,
    run: async (stage) => {
      const trial = await stage.trial()
      await startDraw(trial)
      await drawTo(trial, 'closed')
      const [entry] = (await readLog(trial.page)).slice(3)
      if (entry) await putEntry(trial.page, { ...entry, by: 'somebody else' })
      await clickOn(trial.page, 'Back to the start')
      const { since_ms } = since()
      await clickOn(trial.page, /^Open the record of/)
      const seen = await see(trial.page, /damaged from entry 4 on/, since_ms)
      const lost = await countStored(trial, 'store, the changed entry among them')
      return { seen, band: 'not running', lost }
    },
  },
  {
    id: 'recordUnreadable',
    family,
    did: 'A closed record is opened while every read fails (injected at IDBObjectStore.get, getAll).',
    long: true,
    run: async (stage) => {
      const trial = await stage.trial()
      await startDraw(trial)
      await drawTo(trial, 'closed')
      await clickOn(trial.page, 'Back to the start')
      await trial.page.getByRole('button', { name: /^Open the record of/ }).waitFor()
      await disk(trial.page, 'readFails')
      const { since_ms } = since()
      await clickOn(trial.page, /^Open the record of/)
      const seen = await see(trial.page, /cannot be read/, since_ms)
      await isWell(trial)
      return { seen, band: 'not running', lost: await lostFromStore(trial) }
    },
  },
  {
    id: 'persistRefused',
    family,
    did: 'The browser does not promise to keep what is stored (injected at StorageManager.persist).',
    run: async (stage) => {
      const trial = await stage.trial({
        prepare: (context) =>
          context.addInitScript(() => {
            const no = (): Promise<boolean> => Promise.resolve(false)
            Object.assign(StorageManager.prototype, { persist: no, persisted: no })
          }),
      })
      await startDraw(trial)
      await confirm(trial)
      await trial.page.reload()
      const { since_ms } = since()
      await trial.page.locator('.places button', { hasText: 'Settings' }).click()
      const seen = await see(trial.page, /may clear the records/, since_ms)
      return { seen, band: 'not running', lost: await lostFromStore(trial) }
    },
  },
  {
    id: 'storageRefused',
    family,
    did: 'The browser lets the page store nothing (injected: IDBFactory.open throws SecurityError).',
    run: async (stage) => {
      const trial = await stage.trial({
        bare: true,
        prepare: (context) =>
          context.addInitScript(() => {
            const tools = (window as Window & { stillhandFaults?: { disk: string } })
              .stillhandFaults
            if (tools) tools.disk = 'refused'
          }),
      })
      const seen = await see(trial.page, /Stillhand cannot start/, trial.opened_ms)
      return { seen, band: 'not running', lost: { confirmed: 0, kept: 0, countedIn: 'nothing was begun' } } // prettier-ignore
    },
  },
  {
    id: 'storageBlocked',
    family,
    did: 'Another tab keeps a database of an older version open and does not let go of it (real).',
    run: async (stage) => {
      const trial = await stage.trial({
        bare: true,
        fresh: true,
        first: async (page, baseUrl) => {
          await page.goto(`${baseUrl}/manifest.webmanifest`)
          await page.evaluate(
            () =>
              new Promise<void>((resolve) => {
                const request = indexedDB.open('stillhand', 1)
                request.onupgradeneeded = () => {
                  for (const name of ['entries', 'draws', 'settings'])
                    request.result.createObjectStore(name)
                }
                request.onsuccess = () => resolve()
              }),
          )
        },
      })
      const seen = await see(trial.page, /Close that tab/, trial.opened_ms, 15_000)
      return { seen, band: 'not running', lost: { confirmed: 0, kept: 0, countedIn: 'nothing was begun' } } // prettier-ignore
    },
  },
  {
    id: 'settingsUnsaved',
    family,
    did: 'A setting is changed while the storage is full (injected at IDBObjectStore.put).',
    run: async (stage) => {
      const trial = await stage.trial()
      await trial.page.locator('.places button', { hasText: 'Settings' }).click()
      await disk(trial.page, 'full')
      const { since_ms } = since()
      await trial.page.getByLabel('Listen during a draw').click()
      const seen = await see(trial.page, /settings cannot be saved/, since_ms)
      return { seen, band: 'not running', lost: { confirmed: 0, kept: 0, countedIn: 'no draw' } }
    },
  },
]
