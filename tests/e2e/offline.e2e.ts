import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import { staticServer } from '../../scripts/build/staticServer.ts'
import { join } from 'node:path'
import type { Server } from 'node:http'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { startDemo, untilLogged } from '../support/e2eDraw.ts'
import { fakeMicrophone, say } from '../support/e2eMic.ts'
import { PROMPTS, quiet, recordSounds, soundsOf } from '../support/e2eSounds.ts'

let browser: OpenBrowser
let page: Page
let server: Server
let address: string

/** A server of its own, since this one is taken away. */
beforeAll(async () => {
  expect(inject('baseUrl')).toBeTruthy()
  server = staticServer(join(import.meta.dirname, '..', '..', 'dist'))
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const place = server.address()
  address = `http://localhost:${typeof place === 'object' && place ? place.port : 0}`
  browser = await openBrowser()
  await fakeMicrophone(browser.context)
  await recordSounds(browser.context)
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
})

afterAll(() => browser.close())

test('after one visit the app opens, hears and speaks without its server', async () => {
  await page.goto(address)
  await page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready
    if (active && active.state !== 'activated') {
      await new Promise((resolve) => active.addEventListener('statechange', resolve))
    }
  })
  server.closeAllConnections()
  await new Promise((resolve) => server.close(resolve))
  await expect(fetch(address)).rejects.toThrow()

  await page.reload()
  await startDemo(page)
  await page.locator('.listening.listening').getByText('Listening').waitFor({ timeout: 60_000 })
  await quiet(page, PROMPTS)
  let log
  for (let tries = 0; tries < 3 && !log; tries++) {
    await say(page, 'am_michael', 'patient confirmed')
    log = await untilLogged(page, 0, ({ heard }) => heard === 'patient confirmed', 3000)
  }
  expect(log).toBeDefined()
  await quiet(page, PROMPTS)
  const played = new Set((await soundsOf(page)).map(({ path }) => path))
  expect([...played].some((path) => path.startsWith(PROMPTS))).toBe(true)
  expect(played).toContain('/chimes/heard.wav')
}, 120_000)
