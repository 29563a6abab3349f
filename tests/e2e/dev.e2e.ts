import { join } from 'node:path'
import { createServer, type ViteDevServer } from 'vite'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { startDemo } from '../support/e2eDraw.ts'
import { fakeMicrophone } from '../support/e2eMic.ts'
import { watch } from '../support/e2eWatch.ts'

let browser: OpenBrowser
let server: ViteDevServer

beforeAll(async () => {
  const root = join(import.meta.dirname, '..', '..')
  server = await createServer({ root, logLevel: 'error', server: { port: 0 } })
  await server.listen()
  browser = await openBrowser()
  await fakeMicrophone(browser.context)
})

afterAll(async () => {
  await browser.close()
  await server.close()
})

test('the development server serves the app as far as a draw that listens', async () => {
  const address = new URL(server.resolvedUrls?.local[0] ?? '').origin
  const faults = await watch(browser.context, address)
  const page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(address)
  await startDemo(page)
  await page.locator('.listening.listening').getByText('Listening').waitFor({ timeout: 60_000 })
  expect(faults).toEqual([])
})
