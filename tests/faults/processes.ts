import { bandFault } from './bandFault.ts'
import { see } from './drive.ts'
import type { Fault } from './fault.ts'
import { setSiteUp } from './site.ts'
import { alarmOf, bandOn, confirm, goOn, lostFromStore, type Trial } from './trial.ts'

const family = 'processes'
/** The clock of a draw that nobody has gone on with yet, on the first screen. */
const RUNNING = /Tourniquet|Band/

/** A new page on the first screen; nobody has touched it. */
async function newPage(
  trial: Trial,
): Promise<{ readonly since_ms: number; readonly ableFrom_ms: number }> {
  trial.page = await trial.context.newPage()
  await trial.page.goto(trial.baseUrl)
  const now_ms = Date.now()
  return { since_ms: now_ms, ableFrom_ms: now_ms }
}

export const PROCESS_FAULTS: readonly Fault[] = [
  bandFault(family, {
    id: 'pageKilled',
    did: 'The page’s process is killed with the band on and the app opened anew; nobody touches it before the alarm (real: Page.crash).',
    byHand: true,
    inject: async (trial) => {
      const session = await trial.context.newCDPSession(trial.page)
      const gone = trial.page.waitForEvent('crash')
      session.send('Page.crash').catch(() => undefined)
      await gone
      return newPage(trial)
    },
    sees: RUNNING,
    after: async (trial) => {
      await goOn(trial)
      await confirm(trial)
    },
  }),
  bandFault(family, {
    id: 'pageReloaded',
    did: 'The page is loaded anew with the band on; nobody touches it before the alarm (real).',
    byHand: true,
    inject: async (trial) => {
      await trial.page.reload()
      const now_ms = Date.now()
      return { since_ms: now_ms, ableFrom_ms: now_ms }
    },
    sees: RUNNING,
    after: async (trial) => {
      await goOn(trial)
      await confirm(trial)
    },
  }),
  {
    id: 'browserKilled',
    family,
    did: 'The whole browser is killed with the band on and started anew after its limit (real: Browser.crash).',
    long: true,
    run: async (stage) => {
      const profile = stage.newProfile()
      const trial = await stage.trial({ profile })
      await setSiteUp(trial.page, false)
      await bandOn(trial, true)
      await confirm(trial)
      const gone = new Promise((resolve) => trial.context.once('close', resolve))
      const session = await trial.context.browser()?.newBrowserCDPSession()
      session?.send('Browser.crash').catch(() => undefined)
      await gone
      const again = await stage.trial({ profile })
      const next: Trial = { ...trial, context: again.context, page: again.page }
      const ableFrom_ms = Date.now()
      const seen = await see(next.page, RUNNING, ableFrom_ms)
      const band = await alarmOf(next, { ableFrom_ms, from: 'the return of the app or the limit' })
      await goOn(next)
      await confirm(next)
      return { seen, band, lost: await lostFromStore(next) }
    },
  },
]
