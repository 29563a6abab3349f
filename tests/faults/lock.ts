import { bandFault } from './bandFault.ts'
import { clickOn } from './drive.ts'
import { pressKey } from '../support/pressKey.ts'
import type { Fault } from './fault.ts'
import type { Lost } from './outcome.ts'
import { confirm, drawTo, lostFromFile, moveClocks, type Trial } from './trial.ts'
import { setPin, unlock } from './pin.ts'

const family = 'lock'

/** What is stored is sealed, so the draw is brought to its end and counted in the file that the app saves of it. */
async function lostFromRecord(trial: Trial): Promise<Lost> {
  await drawTo(trial, 'closed')
  await clickOn(trial.page, 'Read the chart note')
  return lostFromFile(trial, 'Save the whole record, signed')
}

export const LOCK_FAULTS: readonly Fault[] = [
  bandFault(family, {
    id: 'reloadBehindPin',
    did: 'The page is loaded anew with the band on on a device with a PIN; nobody types it before the alarm (real).',
    options: { onFirst: setPin },
    long: true,
    byHand: true,
    inject: async (trial) => {
      await trial.page.reload()
      const now_ms = Date.now()
      return { since_ms: now_ms, ableFrom_ms: now_ms }
    },
    sees: /A draw is running\. Its clocks go on/,
    after: async (trial) => {
      await unlock(trial.page)
      await trial.page.locator('.draw .choice').first().waitFor({ timeout: 60_000 })
    },
    lost: lostFromRecord,
  }),
  bandFault(family, {
    id: 'idleBehindPin',
    did: 'Nobody touches a device with a PIN for 6 min in mid-draw, a minute longer than until it locks (injected at Date and performance.now).',
    options: { onFirst: setPin },
    long: true,
    byHand: true,
    inject: async (trial) => {
      const due_ms = Date.now()
      await moveClocks(trial, 360_000, 360_000)
      return { due_ms, from: 'the moment the time had passed' }
    },
    sees: /away|Band over one minute/,
    lost: lostFromRecord,
  }),
  bandFault(family, {
    id: 'pinSetMeanwhile',
    did: 'Another tab sets a PIN while the draw runs here; the PIN is typed here once the draw is closed (real).',
    long: true,
    inject: async (trial) => {
      const other = await trial.context.newPage()
      await other.goto(trial.baseUrl)
      await setPin(other)
      await other.close()
      const since_ms = Date.now()
      await confirm(trial)
      return { since_ms }
    },
    sees: /records of this device are locked/,
    lost: async (trial) => {
      await drawTo(trial, 'samples stored')
      await pressKey(trial.page, 'Space', { delay: 60 })
      trial.confirmed++
      await unlock(trial.page)
      await clickOn(trial.page, /^Open the record of/)
      return lostFromFile(trial, 'Save the whole record, signed')
    },
  }),
]
