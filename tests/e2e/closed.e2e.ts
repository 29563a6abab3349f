import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import { staticServer } from '../../scripts/build/staticServer.ts'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { startDemo } from '../support/e2eDraw.ts'
import { watch } from '../support/e2eWatch.ts'

interface Usb {
  getDevices(): Promise<unknown>
}

/** Chromium knows it only where it has it, which is not on Linux. */
const UNKNOWN_HERE = /Unrecognized feature: 'bluetooth'/

let browser: OpenBrowser
let page: Page
let faults: readonly string[]
const complaints: string[] = []

beforeAll(async () => {
  browser = await openBrowser()
  faults = await watch(browser.context, inject('baseUrl'))
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
  page.on('console', (message) => {
    const text = message.text()
    if (/polic|Trusted/i.test(text) && !UNKNOWN_HERE.test(text)) complaints.push(text)
  })
  await page.goto(inject('baseUrl'))
})
afterAll(() => browser.close())

test('the app draws, listens and keeps itself under its own policy', async () => {
  await startDemo(page)
  await page.locator('.listening.listening').getByText('Listening').waitFor({ timeout: 60_000 })
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
  expect(faults).toEqual([])
  expect(complaints).toEqual([])
})

test('a device alone loads nothing of a hub and opens nothing for one', async () => {
  const loaded = await page.evaluate(async () =>
    Promise.all(
      performance
        .getEntriesByType('resource')
        .filter(({ name }) => /\/assets\/.*\.js$/.test(name))
        .map(async ({ name }) => ({ name, text: await (await fetch(name)).text() })),
    ),
  )
  expect(loaded.length).toBeGreaterThan(0)
  // Words that only the hub's library and our own part for it have.
  const ofHub = /_INBOX|\$JS\.API|stillhand-envelope/
  expect(loaded.filter(({ text }) => ofHub.test(text)).map(({ name }) => name)).toEqual([])
  const assets = join(import.meta.dirname, '..', '..', 'dist', 'assets')
  const holding = readdirSync(assets).filter(
    (name) => name.endsWith('.js') && ofHub.test(readFileSync(join(assets, name), 'utf8')),
  )
  expect(holding).toEqual([expect.stringMatching(/^hubWiring-/)])
  expect(await page.getByText(/clinic’s hub|Working alone/).count()).toBe(0)
})

test('no other origin shares its process, and what it does not use is closed to it', async () => {
  expect(await page.evaluate(() => crossOriginIsolated)).toBe(true)
  const answers = await page.evaluate(async () => ({
    usb: await (navigator as Navigator & { usb: Usb }).usb.getDevices().then(
      () => 'open',
      (error: Error) => error.name,
    ),
    geolocation: await new Promise((resolve) => {
      const fail = (error: GeolocationPositionError): void => resolve(error.code)
      navigator.geolocation.getCurrentPosition(() => resolve('open'), fail)
    }),
    camera: await navigator.mediaDevices.getUserMedia({ video: true }).then(
      () => 'open',
      (error: Error) => error.name,
    ),
  }))
  // 1 is PERMISSION_DENIED (W3C Geolocation).
  expect(answers).toEqual({ usb: 'SecurityError', geolocation: 1, camera: 'NotAllowedError' })
})

test('text becomes neither markup nor code, and no other script is started', async () => {
  const outcome = (work: string): Promise<unknown> =>
    page.evaluate((source) => {
      const tries: Record<string, () => unknown> = {
        markup: () => (document.createElement('div').innerHTML = '<b>x</b>'),
        code: () => Reflect.construct(Function, ['return 1']),
        timer: () => (setTimeout as (code: string) => unknown)('1'),
        script: () => (document.createElement('script').src = '/assets/other.js'),
        worker: () => new Worker('/assets/other.js'),
        otherPolicy: () =>
          (
            window as unknown as {
              trustedTypes: { createPolicy(name: string, rules: object): unknown }
            }
          ).trustedTypes.createPolicy('own', {}),
      }
      // In a task of the page's own: what the debugger evaluates may make code from text.
      return new Promise((resolve) => {
        setTimeout(() => {
          try {
            tries[source]?.()
            resolve('done')
          } catch (error) {
            resolve((error as Error).name)
          }
        }, 0)
      })
    }, work)
  for (const work of ['markup', 'code', 'timer', 'script', 'worker', 'otherPolicy']) {
    expect([work, await outcome(work)]).not.toEqual([work, 'done'])
  }
})

test('at another port the first screen says where the records are kept', async () => {
  const dist = join(import.meta.dirname, '..', '..', 'dist')
  const keptAt = `${inject('baseUrl')}/`
  const server = staticServer(dist, { keptAt: () => keptAt })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const place = server.address()
  const port = typeof place === 'object' && place ? place.port : 0
  const other = await browser.context.newPage()
  // By another name of this machine, which leads to the one that is its own.
  await other.goto(`http://127.0.0.1:${port}/`)
  expect(new URL(other.url()).hostname).toBe('localhost')
  await other.getByText(`Records of this app are kept at ${keptAt}`).waitFor()
  await other.getByRole('link', { name: 'Go there' }).click()
  await other.waitForURL(keptAt)
  await other.getByRole('button', { name: /^Go on with the draw of/ }).waitFor()
  server.closeAllConnections()
  server.close()
})
