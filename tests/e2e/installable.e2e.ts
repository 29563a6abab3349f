import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'

let browser: OpenBrowser
beforeAll(async () => {
  browser = await openBrowser()
})
afterAll(() => browser.close())

test('the browser finds nothing that keeps the app from being installed', async () => {
  const page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(inject('baseUrl'))
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
  const browserSide = await browser.context.newCDPSession(page)
  const { errors, data } = await browserSide.send('Page.getAppManifest')
  expect(errors).toEqual([])
  expect(JSON.parse(data ?? '')).toMatchObject({ name: 'Stillhand', display: 'standalone' })
  // A profile of its own counts as a private window, and that alone may be the matter.
  const { installabilityErrors } = await browserSide.send('Page.getInstallabilityErrors')
  const found = installabilityErrors.map(({ errorId }) => errorId)
  expect(found.filter((id) => id !== 'in-incognito')).toEqual([])
})

test('it would say so of a page without a manifest', async () => {
  const page = await browser.context.newPage()
  await page.goto(`${inject('baseUrl')}/lexicon.en.txt`)
  const browserSide = await browser.context.newCDPSession(page)
  const { installabilityErrors } = await browserSide.send('Page.getInstallabilityErrors')
  expect(installabilityErrors.map(({ errorId }) => errorId)).toContain('no-manifest')
})
