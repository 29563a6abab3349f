import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { onScreen, startDemo, untilLogged } from '../support/e2eDraw.ts'
import { pressKey } from '../support/pressKey.ts'
import { readLog } from '../support/e2eLog.ts'
import { servedVersions, type ServedVersions } from '../support/e2eVersions.ts'

let versions: ServedVersions
let browser: OpenBrowser

beforeAll(async () => {
  versions = await servedVersions()
  browser = await openBrowser()
}, 120_000)
afterAll(async () => {
  await browser.close()
  await versions.close()
})

const versionOf = (page: Page): Promise<unknown> =>
  page.evaluate(() => (globalThis as { stillhandVersion?: string }).stillhandVersion)

async function openPage(): Promise<Page> {
  const page = await browser.context.newPage()
  await page.goto(versions.address)
  await page.locator('h1').waitFor()
  return page
}

/** Until the service worker has kept the app. */
const kept = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready
    if (active && active.state !== 'activated') {
      await new Promise((resolve) => active.addEventListener('statechange', resolve))
    }
  })

const look = (page: Page): Promise<void> =>
  page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()))

test('a newer version waits while a draw runs, is taken with one press after it, and breaks no old page', async () => {
  const drawing = await openPage()
  await kept(drawing)
  expect(await versionOf(drawing)).toBe('old')
  await startDemo(drawing)
  const home = await openPage()
  const form = await openPage()
  await form.getByRole('button', { name: 'New draw' }).click()

  versions.serve('new')
  await look(home)
  const offer = home.getByRole('button', { name: 'Take the new version' })
  await offer.waitFor({ timeout: 60_000 })
  // Nothing is said in the draw, and a press elsewhere does not take it from under the draw.
  expect(await drawing.locator('.versionLine').count()).toBe(0)
  await offer.click()
  await home.getByText('another page of this app runs a draw').waitFor()
  expect(await versionOf(home)).toBe('old')
  await home.getByRole('button', { name: 'Understood' }).click()
  const before = (await readLog(drawing)).length
  const step = await onScreen(drawing)
  await pressKey(drawing, step?.key ?? '')
  expect(await untilLogged(drawing, before, ({ source }) => source === 'keys')).toBeDefined()

  // The draw's page is gone: nobody is busy any more.
  await drawing.close()
  await offer.click()
  await expect.poll(() => versionOf(home), { timeout: 30_000 }).toBe('new')
  expect(await home.locator('.versionLine').count()).toBe(0)

  // The form keeps what was typed, says so, and still has the files of its own version.
  await form.locator('.versionLine').getByText('Another page took a new version').waitFor()
  expect(await versionOf(form)).toBe('old')
  const order = { name: 'order.json', mimeType: 'application/json', buffer: Buffer.from('{}') }
  await form.getByLabel('Fill in from an order file').setInputFiles(order)
  await form.locator('.troubleBox').waitFor()
  expect(await form.locator('.troubleBox').innerText()).not.toContain('cannot be read here')
  await form.getByRole('button', { name: 'Begin anew' }).click()
  await expect.poll(() => versionOf(form).catch(() => ''), { timeout: 30_000 }).toBe('new')

  // What was recorded under the old version is there under the new one.
  await home.reload()
  await home.getByRole('button', { name: /^Go on with the draw of/ }).waitFor()
}, 120_000)
