import { afterEach, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { goThrough, startDemo } from '../support/e2eDraw.ts'
import { pressKey } from '../support/pressKey.ts'

interface LitWindow extends Window {
  lit?: { held: number; asked: number; locks: WakeLockSentinel[] }
}

let browser: OpenBrowser
afterEach(() => browser.close())

/** The app with every wake lock of this browser noted. */
async function openNoted(mayGoDark: boolean): Promise<Page> {
  browser = await openBrowser({ mayGoDark })
  const page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.addInitScript(() => {
    const lit = { held: 0, asked: 0, locks: [] as WakeLockSentinel[] }
    Object.assign(window, { lit })
    const request = navigator.wakeLock.request.bind(navigator.wakeLock)
    navigator.wakeLock.request = async (type) => {
      lit.asked++
      const lock = await request(type)
      lit.held++
      lit.locks.push(lock)
      lock.addEventListener('release', () => lit.held--)
      return lock
    }
  })
  await page.goto(inject('baseUrl'))
  return page
}
const held = (page: Page) => page.evaluate(() => (window as LitWindow).lit?.held)
const asked = (page: Page) => page.evaluate(() => (window as LitWindow).lit?.asked)

/** Headless pages are always in sight; what the browser does when one goes out of sight is done by hand. */
const setSeen = (page: Page, seen: 'visible' | 'hidden') =>
  page.evaluate((state) => {
    Object.defineProperty(document, 'visibilityState', { configurable: true, value: state })
    if (state === 'hidden') (window as LitWindow).lit?.locks.forEach((lock) => void lock.release())
    document.dispatchEvent(new Event('visibilitychange'))
  }, seen)

test('the screen stays lit for as long as a draw is on it, and is asked for again when it is seen again', async () => {
  const page = await openNoted(false)
  expect(await asked(page)).toBe(0)
  await startDemo(page)
  await expect.poll(() => held(page)).toBe(1)
  expect(await page.locator('.wakeLine').count()).toBe(0)

  await setSeen(page, 'hidden')
  await expect.poll(() => held(page)).toBe(0)
  await page.waitForTimeout(300)
  expect(await asked(page)).toBe(1)
  await setSeen(page, 'visible')
  await expect.poll(() => held(page)).toBe(1)

  await goThrough(page, { patient: false, confirm: ({ key }) => pressKey(page, key) })
  await page.locator('.draw .closed').waitFor()
  await expect.poll(() => held(page)).toBe(0)
})

test('where the browser refuses, the draw says so in words for as long as that lasts', async () => {
  const page = await openNoted(true)
  await startDemo(page)
  await page.locator('.wakeLine').getByText('The screen may go dark.').waitFor()
  expect(await held(page)).toBe(0)
  await browser.context.grantPermissions(['microphone', 'screen-wake-lock'])
  await expect.poll(() => held(page), { timeout: 15_000 }).toBe(1)
  await page.locator('.wakeLine').waitFor({ state: 'detached' })
})
