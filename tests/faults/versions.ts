import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { twoBuilds } from './builds.ts'
import { clickOn, see, GOES_ON } from './drive.ts'
import type { Fault } from './fault.ts'
import type { Outcome } from './outcome.ts'
import { setSiteUp } from './site.ts'
import type { Stage } from './stage.ts'
import {
  alarmOf,
  bandOn,
  confirm,
  drawTo,
  goOn,
  lostFromStore,
  until,
  type Trial,
} from './trial.ts'

const family = 'versions'
const DIST = join(import.meta.dirname, '..', '..', 'dist')
const OFFER = 'Take the new version'

const isNewer = (page: Page): Promise<boolean> =>
  page.evaluate(() => 'stillhandBuild' in globalThis).catch(() => false)

/** Until the service worker answers for the page. */
const isKept = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready
    if (active && active.state !== 'activated') {
      await new Promise((resolve) => active.addEventListener('statechange', resolve))
    }
  })

/** Looks for a newer version, and waits until it waits. */
async function fetchNewer(page: Page): Promise<void> {
  const isWaiting = await page.evaluate(async () => {
    const registered = await navigator.serviceWorker.ready
    await registered.update()
    for (let tries = 0; tries < 600 && !registered.waiting; tries++) {
      await new Promise((resolve) => setTimeout(resolve, 100))
    }
    return registered.waiting !== null
  })
  if (!isWaiting) throw new Error('The newer version does not wait.')
}

/** Another page on the first screen. */
async function homePage(trial: Trial): Promise<Page> {
  const page = await trial.context.newPage()
  await page.goto(trial.baseUrl)
  await page.locator('h1').waitFor()
  return page
}

/** A device that keeps the older build; the server has the newer one from `layNew` on. */
async function withBuilds(
  stage: Stage,
  work: (trial: Trial, layNew: () => void) => Promise<Outcome>,
): Promise<Outcome> {
  const builds = twoBuilds(DIST)
  const server = await stage.ownServer(builds.served)
  try {
    const trial = await stage.trial({
      offline: true,
      baseUrl: server.url,
      fresh: true,
      onFirst: async (page) => {
        await isKept(page)
        await setSiteUp(page, false)
      },
    })
    return await work(trial, builds.layNew)
  } finally {
    await server.close()
    builds.close()
  }
}

export const VERSION_FAULTS: readonly Fault[] = [
  {
    id: 'updateWaits',
    family,
    did: 'A newer version of the app is fetched and waits while the band is on (real service worker; the newer build is made from the older).',
    long: true,
    run: (stage) =>
      withBuilds(stage, async (trial, layNew) => {
        await bandOn(trial)
        layNew()
        await fetchNewer(trial.page)
        const since_ms = Date.now()
        await confirm(trial)
        const seen = await see(trial.page, GOES_ON, since_ms)
        const band = await alarmOf(trial)
        const lines = await trial.page.locator('.versionLine').count()
        const wrong = [
          ...(lines > 0 ? ['told of under the draw'] : []),
          ...((await isNewer(trial.page)) ? ['taken under the draw'] : []),
        ]
        return { seen, band, lost: await lostFromStore(trial), wrong }
      }),
  },
  {
    id: 'updateTakenElsewhere',
    family,
    did: 'The newer version is to be taken in a second tab while the first runs a draw with the band on (real).',
    long: true,
    run: (stage) =>
      withBuilds(stage, async (trial, layNew) => {
        await bandOn(trial)
        const home = await homePage(trial)
        layNew()
        await fetchNewer(home)
        await home.getByRole('button', { name: OFFER }).waitFor()
        const since_ms = Date.now()
        await clickOn(home, OFFER)
        const seen = await see(home, /another page of this app runs a draw/, since_ms)
        await confirm(trial)
        const band = await alarmOf(trial)
        const isTaken = (await isNewer(home)) || (await isNewer(trial.page))
        const wrong = isTaken ? ['taken under the draw'] : []
        return { seen, band, lost: await lostFromStore(trial), wrong }
      }),
  },
  {
    id: 'oldBesideNew',
    family,
    did: 'A second tab takes the newer version; the draw is begun in the first, which still runs the older, and gone on with in the newer (real).',
    long: true,
    run: (stage) =>
      withBuilds(stage, async (trial, layNew) => {
        const old = trial.page
        // On the first screen it would begin anew by itself; what is being filled in stays.
        await clickOn(old, 'Try the invented demo')
        const home = await homePage(trial)
        layNew()
        await fetchNewer(home)
        await home.getByRole('button', { name: OFFER }).waitFor()
        const since_ms = Date.now()
        await clickOn(home, OFFER)
        const seen = await see(old, /Another page took a new version/, since_ms)
        const isTaken = await until(() => isNewer(home))
        await clickOn(old, 'Plan the tubes')
        await clickOn(old, 'Start the draw')
        await drawTo(trial, 'needle in')
        const band = await alarmOf(trial)
        const stayed = !(await isNewer(old))
        await old.close()
        trial.page = home
        await home.reload()
        await goOn(trial)
        await confirm(trial)
        const wrong = [
          ...(isTaken ? [] : ['the newer version is not taken']),
          ...(stayed ? [] : ['the older page changed under the draw']),
        ]
        return { seen, band, lost: await lostFromStore(trial), wrong }
      }),
  },
]
