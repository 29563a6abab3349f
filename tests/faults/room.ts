import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { bandFault } from './bandFault.ts'
import { see, GOES_ON } from './drive.ts'
import type { Fault } from './fault.ts'
import { bandOn, confirm, drawTo, goOn, startDraw, type Trial, endOf } from './trial.ts'

const family = 'room'
const EXAMPLE = join(import.meta.dirname, '../fixtures/logs/version1.json')

/** So many headings that reading them by their order would take half a minute. */
const HOSTILE_HEADINGS = Array.from({ length: 40_000 }, (_, i) => `c${i}`).join(',')

/** The first screen, while the draw runs on. */
async function toStart({ page }: Trial): Promise<void> {
  await page.evaluate(() => history.length)
  await page.reload()
  await page.locator('h1').waitFor()
}

export const ROOM_FAULTS: readonly Fault[] = [
  bandFault(family, {
    id: 'fileTakenIn',
    did: 'A record is brought in from a file on the first screen while a draw is open with the band on (real).',
    byHand: true,
    inject: async (trial) => {
      await toStart(trial)
      const ableFrom_ms = Date.now()
      const since_ms = Date.now()
      await trial.page.locator('.bringIn input').setInputFiles({
        name: 'log.json',
        mimeType: 'application/json',
        buffer: readFileSync(EXAMPLE),
      })
      return { ableFrom_ms, since_ms }
    },
    sees: /key|signed|refused/i,
    after: async (trial) => {
      await trial.page.reload()
      await goOn(trial)
      await confirm(trial)
    },
  }),
  bandFault(family, {
    id: 'hostileFile',
    did: 'A catalog file of 40,000 headings is read while a draw is open with the band on (real).',
    byHand: true,
    inject: async (trial) => {
      await toStart(trial)
      const ableFrom_ms = Date.now()
      await trial.page.locator('.places button', { hasText: 'Catalog' }).click()
      const since_ms = Date.now()
      await trial.page
        .locator('input[type=file]')
        .first()
        .setInputFiles({
          name: 'tests.csv',
          mimeType: 'text/csv',
          buffer: Buffer.from(`${HOSTILE_HEADINGS}\n`),
        })
      return { ableFrom_ms, since_ms }
    },
    sees: /^tests\.csv$/,
    after: async (trial) => {
      await trial.page.reload()
      await goOn(trial)
      await confirm(trial)
    },
  }),
  {
    id: 'offlineAtFirstDraw',
    family,
    did: 'The server is taken away after the first visit and the app opened anew for the first draw (real).',
    long: true,
    run: async (stage) => {
      const server = await stage.ownServer()
      const trial = await stage.trial({ offline: true, baseUrl: server.url, fresh: true })
      await trial.page.evaluate(async () => {
        const { active } = await navigator.serviceWorker.ready
        if (active && active.state !== 'activated') {
          await new Promise((resolve) => active.addEventListener('statechange', resolve))
        }
      })
      await server.close()
      const since_ms = Date.now()
      await trial.page.reload()
      const seen = await see(trial.page, /Both hands on the draw/, since_ms)
      await startDraw(trial)
      await drawTo(trial, 'needle in')
      await confirm(trial)
      // The shipped limit, since no site is set up: a minute from the band.
      const due_ms = (trial.bandOn_ms ?? NaN) + 60_000
      return endOf(trial, seen, { due_ms })
    },
  },
  {
    id: 'serviceWorkerMissing',
    family,
    did: 'The service worker cannot be had (real: it is blocked).',
    run: async (stage) => {
      const trial = await stage.trial()
      await bandOn(trial)
      const since_ms = Date.now()
      await confirm(trial)
      const seen = await see(trial.page, GOES_ON, since_ms)
      return endOf(trial, seen)
    },
  },
]
