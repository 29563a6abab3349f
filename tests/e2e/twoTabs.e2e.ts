import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import { checkChain } from '../../src/core/log/checkChain.ts'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { onScreen, startDemo } from '../support/e2eDraw.ts'
import { pressKey } from '../support/pressKey.ts'
import { readLog, stored_n } from '../support/e2eLog.ts'
import { sha256 } from '../support/sampleLog.ts'

let browser: OpenBrowser
let first: Page

const newPage = async (): Promise<Page> => {
  const page = await browser.context.newPage()
  await page.goto(inject('baseUrl'))
  return page
}
const lookOn = async (): Promise<Page> => {
  const page = await newPage()
  await page
    .getByRole('button', { name: /^Go on with the draw of/ })
    .first()
    .click()
  await page.locator('.draw #step-instruction').waitFor()
  return page
}
const confirm = async (page: Page): Promise<void> => {
  const before = await onScreen(page)
  await page.bringToFront()
  await pressKey(page, 'Space')
  await expect
    .poll(async () => (await onScreen(page))?.step, { timeout: 10_000 })
    .not.toBe(before?.step)
}
const titles = async (...pages: Page[]): Promise<(string | null)[]> =>
  Promise.all(pages.map((page) => page.locator('.draw').getAttribute('data-step')))

beforeAll(async () => {
  browser = await openBrowser({ isDeaf: true })
  first = browser.context.pages()[0] ?? (await browser.context.newPage())
  await first.goto(inject('baseUrl'))
  await startDemo(first)
})
afterAll(() => browser.close())

test('a second tab looks on and is closed: every step of the first one is stored', async () => {
  await confirm(first)
  const second = await lookOn()
  expect(await second.getByText(/Another page of this device runs this draw/).count()).toBe(1)
  expect(await second.locator('.draw .choice').count()).toBe(0)
  const before = (await readLog(first)).length
  await pressKey(second, 'Space')
  await second.waitForTimeout(500)
  expect((await readLog(first)).length).toBe(before)
  await second.close()
  await confirm(first)
  await confirm(first)
  const log = await readLog(first)
  expect(log.length).toBe(before + 2)
  expect(checkChain(log, sha256)).toBeUndefined()
})

test('a second tab takes the draw over: the first one says so, writes no more and follows', async () => {
  const second = await lookOn()
  await second.getByRole('button', { name: 'Take over here' }).click()
  await first.getByText(/Another page has taken this draw over/).waitFor({ timeout: 5000 })
  await second.locator('.draw .choice').first().waitFor()
  const before = (await readLog(second)).length
  await first.bringToFront()
  await pressKey(first, 'Space')
  await first.waitForTimeout(500)
  expect((await readLog(second)).length).toBe(before)
  await confirm(second)
  await expect
    .poll(async () => new Set(await titles(first, second)).size, { timeout: 5000 })
    .toBe(1)
  const log = await readLog(second)
  expect(log.length).toBe(before + 1)
  expect(log.some(({ event }) => event.type === 'noteAdded')).toBe(true)
  expect(checkChain(log, sha256)).toBeUndefined()
  await second.close()
})

test('the tab that holds a draw dies: another one may go on with it at once', async () => {
  await first.goto('about:blank')
  const second = await lookOn()
  expect(await second.locator('.draw .choice').count()).toBeGreaterThan(0)
  expect(await second.getByText(/Another page/).count()).toBe(0)
  await second.close()
})

test('two tabs that begin in one moment get two numbers', async () => {
  const pages = [await newPage(), await newPage()] as const
  for (const page of pages) {
    await page.getByRole('button', { name: 'Try the invented demo' }).click()
    await page.getByRole('button', { name: 'Plan the tubes' }).click()
  }
  await Promise.all(
    pages.map((page) =>
      page.getByRole('button', { name: 'Start the draw' }).evaluate((button) => {
        ;(button as HTMLElement).click()
      }),
    ),
  )
  for (const page of pages) await page.locator('.draw #step-instruction').waitFor()
  await expect.poll(() => stored_n(pages[0], 'draws')).toBe(3)
})
