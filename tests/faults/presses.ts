import type { Page } from 'playwright-core'
import { bandFault } from './bandFault.ts'
import { storedDraws } from './database.ts'
import { clickOn, see, shownOn, untilShown, GOES_ON, clickTwice } from './drive.ts'
import type { Fault } from './fault.ts'
import {
  alarmOf,
  bandOn,
  confirm,
  drawTo,
  inTools,
  lostFromStore,
  startDraw,
  type Trial,
  endOf,
} from './trial.ts'

const family = 'presses'

const twice = (page: Page, name: string | RegExp): Promise<void> =>
  clickTwice(page.getByRole('button', { name }).first())

async function toPlan(trial: Trial): Promise<void> {
  await clickOn(trial.page, 'Try the invented demo')
  await clickOn(trial.page, 'Plan the tubes')
  await trial.page.getByRole('button', { name: 'Start the draw' }).waitFor()
}

async function onlyOneDraw(trial: Trial): Promise<readonly string[]> {
  const { length } = await storedDraws(trial.page)
  return length === 1 ? [] : [`${length} draws are stored`]
}

/** Types as a scanner does, to whatever has the focus. */
async function scan(page: Page, text: string, gap_ms: number): Promise<void> {
  for (const key of [...text, 'Enter']) {
    await page.keyboard.press(key)
    await page.waitForTimeout(gap_ms)
  }
}

export const PRESS_FAULTS: readonly Fault[] = [
  {
    id: 'startTwice',
    family,
    did: '"Start the draw" is pressed twice in one moment (real).',
    run: async (stage) => {
      const trial = await stage.trial()
      await toPlan(trial)
      const since_ms = Date.now()
      await twice(trial.page, 'Start the draw')
      const seen = await see(trial.page, /^identity/i, since_ms)
      await drawTo(trial, 'needle in')
      const band = await alarmOf(trial)
      const lost = await lostFromStore(trial)
      const wrong = await onlyOneDraw(trial)
      return { seen, band, lost, wrong }
    },
  },
  {
    id: 'enterHeldAtStart',
    family,
    did: 'Enter is held down on "Start the draw" for 2 s (real key, its repeats sent every 30 ms).',
    run: async (stage) => {
      const trial = await stage.trial()
      await toPlan(trial)
      await trial.page.getByRole('button', { name: 'Start the draw' }).focus()
      const watching = see(trial.page, /^identity/i)
      // Each further down of a key that is down is a repeat.
      for (let n = 0; n < 60; n++) {
        await trial.page.keyboard.down('Enter')
        await trial.page.waitForTimeout(30)
      }
      await trial.page.keyboard.up('Enter')
      const seen = await watching
      await confirm(trial)
      const lost = await lostFromStore(trial)
      const wrong = await onlyOneDraw(trial)
      return { seen, band: 'not running', lost, wrong }
    },
  },
  {
    id: 'goOnTwice',
    family,
    did: '"Go on" with a draw is pressed twice in one moment after a reload with the band on (real).',
    run: async (stage) => {
      const trial = await stage.trial()
      await bandOn(trial)
      await trial.page.reload()
      const ableFrom_ms = Date.now()
      await trial.page.getByRole('button', { name: /^Go on with the draw of/ }).waitFor()
      const since_ms = Date.now()
      await twice(trial.page, /^Go on with the draw of/)
      const seen = await see(trial.page, /^needle in/i, since_ms)
      await untilShown(trial.page, ({ key }) => key !== '')
      await confirm(trial)
      return endOf(trial, seen, { ableFrom_ms })
    },
  },
  {
    id: 'closeTwice',
    family,
    did: 'The choice that ends the draw is pressed twice in one moment (real).',
    long: true,
    run: async (stage) => {
      const trial = await stage.trial()
      await startDraw(trial)
      await drawTo(trial, 'samples stored')
      const since_ms = Date.now()
      await twice(trial.page, /samples stored/)
      trial.confirmed++
      const seen = await see(trial.page, /^read the chart note/i, since_ms)
      const lost = await lostFromStore(trial)
      return { seen, band: 'not running', lost }
    },
  },
  {
    id: 'printTwice',
    family,
    did: 'The button that prints the labels is pressed twice in one moment (real presses; the print dialog is replaced by a count).',
    long: true,
    run: async (stage) => {
      const trial = await stage.trial()
      await startDraw(trial)
      await drawTo(trial, 'closed')
      await clickOn(trial.page, 'Labels')
      const print = trial.page.getByRole('button', { name: /^Print/ })
      await print.first().waitFor()
      const since_ms = Date.now()
      await twice(trial.page, /^Print/)
      const seen = await see(trial.page, /^labels/i, since_ms)
      const prints = await inTools(trial.page, (tools) => tools.prints)
      const wrong = prints === 1 ? [] : [`printed ${prints} times`]
      const lost = await lostFromStore(trial)
      return { seen, band: 'not running', lost, wrong }
    },
  },
  bandFault(family, {
    id: 'spaceHeld',
    did: 'Space is held down for 2 s in a draw (real key, its repeats sent every 30 ms).',
    inject: async (trial) => {
      await trial.page.locator('.draw:not([data-held])').waitFor()
      for (let n = 0; n < 60; n++) {
        await trial.page.keyboard.down('Space')
        await trial.page.waitForTimeout(30)
      }
      await trial.page.keyboard.up('Space')
      trial.confirmed++
      return { since_ms: Date.now() }
    },
    sees: GOES_ON,
  }),
  bandFault(family, {
    id: 'choiceTwice',
    did: 'The main choice is clicked twice in one moment (real).',
    inject: async (trial) => {
      const since_ms = Date.now()
      await clickTwice(trial.page.locator('.draw .choice.main'))
      await trial.page.waitForTimeout(400)
      trial.confirmed++
      return { since_ms }
    },
    sees: GOES_ON,
  }),
  ...([5, 70] as const).map((gap_ms) =>
    bandFault(family, {
      id: gap_ms === 5 ? 'scannerFast' : 'scannerSlow',
      did: `A scanner types a code that is no label’s into the step, ${gap_ms} ms a character (real keys).`,
      inject: async (trial) => {
        const before = (await shownOn(trial.page))?.title
        await scan(trial.page, 'D7261125000302', gap_ms)
        const since_ms = Date.now()
        await trial.page.waitForTimeout(500)
        if ((await shownOn(trial.page))?.title !== before)
          throw new Error('The scan moved the step.')
        return { since_ms }
      },
      sees: /no specimen yet/i,
    }),
  ),
]
