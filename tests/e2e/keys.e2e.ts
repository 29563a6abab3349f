import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import {
  flagsOf,
  goThrough,
  onScreen,
  storyOf,
  storyOfPlan,
  tabTo,
  withoutFlags,
} from '../support/e2eDraw.ts'
import { readLog } from '../support/e2eLog.ts'
import { watch } from '../support/e2eWatch.ts'

let browser: OpenBrowser
let page: Page
let faults: readonly string[]

beforeAll(async () => {
  browser = await openBrowser()
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
      await page.keyboard.press(key)
    },
  })

  const log = await readLog(page)
  expect(storyOf(withoutFlags(log))).toEqual(storyOfPlan(log))
  // Nothing was waited for, and the record says so.
  expect(flagsOf(log)).toEqual(['skinNotDry', 'pressureShort', 'siteNotWatched'])
  expect(new Set(keys)).toEqual(new Set(['Space', '1']))
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

test('nothing broke the content policy, failed, or left the machine', () => {
  expect(faults).toEqual([])
})
