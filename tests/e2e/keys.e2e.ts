import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import { BURST_ms, DIGIT_WAIT_ms } from '../../src/core/scan/keyReader.ts'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import {
  firstOf,
  flagsOf,
  goThrough,
  onScreen,
  startDemo,
  storyOf,
  storyOfPlan,
  tabTo,
  untilLogged,
  withoutFlags,
} from '../support/e2eDraw.ts'
import { pressKey } from '../support/pressKey.ts'
import { readLog } from '../support/e2eLog.ts'
import { watch } from '../support/e2eWatch.ts'

let browser: OpenBrowser
let page: Page
let faults: readonly string[]

beforeAll(async () => {
  browser = await openBrowser({ isDeaf: true })
  faults = await watch(browser.context, inject('baseUrl'))
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
})

afterAll(() => browser.close())

test('a draw from the first screen to the chart note by keys alone', async () => {
  await page.goto(inject('baseUrl'))
  await tabTo(page, 'Try the invented demo')
  await tabTo(page, 'Plan the tubes')
  await tabTo(page, 'Start the draw')
  await page.locator('.draw #step-instruction').waitFor()

  const keys: string[] = []
  await goThrough(page, {
    patient: false,
    confirm: async ({ key }) => {
      keys.push(key)
      await pressKey(page, key)
    },
  })

  const log = await readLog(page)
  expect(storyOf(withoutFlags(log))).toEqual(storyOfPlan(log))
  // Nothing was waited for, and the record says so.
  expect(flagsOf(log)).toEqual(['skinNotDry', 'pressureShort', 'siteNotWatched'])
  expect(new Set(keys)).toEqual(new Set(['Space', 'ArrowRight']))
  const sources = new Set(log.map(({ source }) => source))
  expect([...sources].filter((source) => !['app', 'clock', 'keys'].includes(source))).toEqual([])
  expect(log.find(({ event }) => event.type === 'drawClosed')?.event).toMatchObject({
    outcome: 'complete',
  })
  expect(await onScreen(page)).toBeUndefined()

  await tabTo(page, 'Read the chart note')
  await page.locator('.note').waitFor()
  expect(await page.locator('.note').innerText()).toContain('invented')
})

/** Types as a scanner does: a key comes up at once, however long it takes to the next. */
async function scan(page: Page, text: string, gap_ms: number): Promise<void> {
  for (const key of [...text, 'Enter']) {
    await page.keyboard.press(key)
    await page.waitForTimeout(gap_ms)
  }
}

test('what a scanner types, slow or short, presses nothing, on the first screen and in a draw', async () => {
  await page.goto(inject('baseUrl'))
  const start = page.getByRole('button', { name: 'Try the invented demo' })
  await start.focus()
  await scan(page, 'A1', 70)
  expect(await start.isVisible()).toBe(true)
  await startDemo(page)
  const before = (await readLog(page)).length
  for (const [text, gap_ms] of [['ABC', 5], ['A1', 70], ['D7261125000302', 70], ['4711', 200], ['12', 200]] as const) {
    await scan(page, text, gap_ms)
    await page.waitForTimeout(BURST_ms)
  } // prettier-ignore
  const log = await readLog(page)
  expect(log.filter(({ source }) => source !== 'scanner')).toHaveLength(before)
  // While the patient is identified, what is scanned is held against the order as a wristband, and is not the patient's.
  for (const { event } of log.slice(before)) {
    if (event.type === 'identifierChecked')
      expect(event).toMatchObject({ how: 'scan', matches: false })
    else expect(event).toMatchObject({ type: 'flagRaised', flag: 'wristbandMismatch' })
  }
  const question = page.locator('.scanQuestion')
  expect(await question.innerText()).toContain('12')
  await question.getByRole('button', { name: 'No, forget it' }).click()
  expect(await question.count()).toBe(0)
  // What was scanned is another's, so the draw stands until the right wristband is scanned.
  expect((await onScreen(page))?.step).toBe('wristband')
  await scan(page, firstOf(log, 'drawOpened').event.patient.recordNumber, 5)
  const titleNow = async (): Promise<string | undefined> => {
    // A machine that is busy makes the scanner so slow that the app has to ask.
    const yes = question.getByRole('button', { name: 'Yes, read it as a label' })
    if ((await yes.count()) > 0) await yes.click()
    return (await onScreen(page))?.step
  }
  await expect.poll(titleNow, { timeout: 10_000 }).toBe('identity')
})

test('a digit that a person presses acts soon, Space at once', async () => {
  await page.evaluate(() => {
    const pressed: number[] = []
    document.addEventListener('keydown', (event) => void pressed.push(event.timeStamp), true)
    Object.assign(window, { pressed })
  })
  const took_ms = async (key: string): Promise<number> => {
    const before = (await readLog(page)).length
    await pressKey(page, key, { delay: 80 })
    await untilLogged(page, before, ({ source }) => source === 'keys')
    const entry = (await readLog(page))[before]
    const at_ms = await page.evaluate(() => (window as Window & { pressed?: number[] }).pressed?.at(-1)) // prettier-ignore
    return (entry?.at.mono_ms ?? NaN) - (at_ms ?? NaN)
  }
  const space_ms = await took_ms('Space')
  const arms = page.locator('.draw .answerRow', { hasText: 'left arm chosen' })
  while ((await arms.count()) === 0) await took_ms('Space')
  const digit_ms = await took_ms('4')
  process.stdout.write(`Space acted after ${space_ms.toFixed(0)} ms, 4 after ${digit_ms.toFixed(0)} ms\n`) // prettier-ignore
  // The wait itself is 120 ms; the rest is what a busy machine adds.
  expect(digit_ms).toBeGreaterThanOrEqual(DIGIT_WAIT_ms - 1)
  expect(digit_ms).toBeLessThan(DIGIT_WAIT_ms + 400)
  expect(space_ms).toBeLessThan(400)
})

test('nothing broke the content policy, failed, or left the machine', () => {
  expect(faults).toEqual([])
})
