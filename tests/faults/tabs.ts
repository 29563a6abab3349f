import type { Page } from 'playwright-core'
import { bandFault } from './bandFault.ts'
import { storedDraws } from './database.ts'
import { clickOn, see, shownOn, GOES_ON, clickTwice } from './drive.ts'
import { pressKey } from '../support/pressKey.ts'
import type { Fault } from './fault.ts'
import { bandOn, confirm, goOn, until, type Trial, endOf } from './trial.ts'

const family = 'tabs'

/** A second tab on the draw that runs in the first. */
async function lookOn(trial: Trial): Promise<Page> {
  const page = await trial.context.newPage()
  await page.goto(trial.baseUrl)
  await goOn(trial, page)
  return page
}

export const TAB_FAULTS: readonly Fault[] = [
  {
    id: 'twoTabs',
    family,
    did: 'A second tab opens the draw that runs in the first, and a key is pressed there (real).',
    run: async (stage) => {
      const trial = await stage.trial()
      await bandOn(trial)
      const since_ms = Date.now()
      const second = await lookOn(trial)
      const seen = await see(second, /Another page of this device runs this draw/, since_ms)
      await pressKey(second, 'Space', { delay: 60 })
      await confirm(trial)
      return endOf(trial, seen)
    },
  },
  {
    id: 'takeOver',
    family,
    did: 'A second tab takes the draw over with the band on; a key is pressed in the first (real).',
    run: async (stage) => {
      const trial = await stage.trial()
      await bandOn(trial)
      const first = trial.page
      trial.page = await lookOn(trial)
      const since_ms = Date.now()
      await clickOn(trial.page, 'Take over here')
      const seen = await see(first, /Another page has taken this draw over/, since_ms)
      await until(async () => (await shownOn(trial.page))?.key !== '')
      await pressKey(first, 'Space', { delay: 60 })
      await confirm(trial)
      return endOf(trial, seen)
    },
  },
  {
    id: 'takenOverTwice',
    family,
    did: 'The button that takes a draw over is pressed twice (real).',
    run: async (stage) => {
      const trial = await stage.trial()
      await bandOn(trial)
      trial.page = await lookOn(trial)
      const since_ms = Date.now()
      await clickTwice(trial.page.getByRole('button', { name: 'Take over here' }))
      const seen = await see(trial.page, /^needle in/i, since_ms)
      await until(async () => (await shownOn(trial.page))?.key !== '')
      await confirm(trial)
      return endOf(trial, seen)
    },
  },
  {
    id: 'tabClosed',
    family,
    did: 'The tab that runs the draw is closed with the band on; a tab that looked on takes over (real).',
    run: async (stage) => {
      const trial = await stage.trial()
      await bandOn(trial)
      const first = trial.page
      trial.page = await lookOn(trial)
      await first.close()
      const since_ms = Date.now()
      const seen = await see(trial.page, /no page|take over here/i, since_ms)
      await clickOn(trial.page, 'Take over here')
      await until(async () => (await shownOn(trial.page))?.key !== '')
      await confirm(trial)
      return endOf(trial, seen)
    },
  },
  {
    id: 'twoOpenings',
    family,
    did: 'Two tabs begin a draw in one moment (real).',
    run: async (stage) => {
      const trial = await stage.trial()
      const second = await trial.context.newPage()
      await second.goto(trial.baseUrl)
      const pages = [trial.page, second]
      for (const page of pages) {
        await clickOn(page, 'Try the invented demo')
        await clickOn(page, 'Plan the tubes')
      }
      const since_ms = Date.now()
      await Promise.all(
        pages.map((page) =>
          page.getByRole('button', { name: 'Start the draw' }).evaluate((button) => {
            ;(button as HTMLElement).click()
          }),
        ),
      )
      const seen = await see(second, /^identity/i, since_ms)
      await until(async () => (await storedDraws(trial.page)).length === 2)
      const { length } = await storedDraws(trial.page)
      const wrong = length === 2 ? [] : [`${length} draws are stored`]
      const lost = { confirmed: 2, kept: length, countedIn: 'draws in the store' }
      return { seen, band: 'not running', lost, wrong }
    },
  },
  bandFault(family, {
    id: 'looksOnAndLeaves',
    did: 'A second tab opens the draw and is closed at once (real).',
    inject: async (trial) => {
      await (await lookOn(trial)).close()
      const since_ms = Date.now()
      await confirm(trial)
      return { since_ms }
    },
    sees: GOES_ON,
    after: async (trial) => void (await confirm(trial)),
  }),
]
