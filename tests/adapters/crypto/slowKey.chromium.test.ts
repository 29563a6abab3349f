import { scryptSync } from 'node:crypto'
import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import type { SlowKeyParameters } from '../../../src/ports/vault.ts'
import { openBrowser, type OpenBrowser } from '../../support/e2eBrowser.ts'

const PIN = '482913'
/** A page that is held up for longer than this no longer keeps its clocks. */
const HELD_UP_ms = 100

interface Asked {
  readonly pin: string
  readonly parameters: SlowKeyParameters
}
interface KeyWindow extends Window {
  stillhandKey?: { asked?: Asked; key?: number[]; reason?: string; longest_ms: number }
}

let browser: OpenBrowser
let page: Page

/** Listens to what passes between the app and the worker that makes its slow key, and to how long the page is held up. */
beforeAll(async () => {
  browser = await openBrowser()
  await browser.context.addInitScript(() => {
    const seen: NonNullable<KeyWindow['stillhandKey']> = { longest_ms: 0 }
    ;(window as KeyWindow).stillhandKey = seen
    window.Worker = new Proxy(Worker, {
      construct: (target, args: unknown[]) => {
        const worker = Reflect.construct(target, args) as Worker
        if (!String(args[0]).includes('slowKey')) return worker
        const post = worker.postMessage.bind(worker) as (message: Asked) => void
        Object.assign(worker, {
          postMessage: (message: Asked) => {
            seen.asked = message
            seen.longest_ms = 0
            post(message)
          },
        })
        worker.addEventListener('message', ({ data }: MessageEvent<{ key: Uint8Array }>) => {
          seen.key = [...data.key]
        })
        return worker
      },
    })
    // Long Tasks API (W3C): every task of the page's thread that took 50 ms or longer.
    new PerformanceObserver((list) => {
      if (seen.key) return
      for (const { duration } of list.getEntries())
        seen.longest_ms = Math.max(seen.longest_ms, duration)
    }).observe({ entryTypes: ['longtask'] })
  })
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(inject('baseUrl'))
})
afterAll(() => browser.close())

test('the worker makes the key that another implementation makes, and the page goes on meanwhile', async () => {
  await page.locator('.places button', { hasText: 'Settings' }).click()
  await page.getByLabel('PIN', { exact: true }).fill(PIN)
  await page.getByLabel('The same PIN again').fill(PIN)
  await page.getByRole('button', { name: 'Set the PIN' }).click()
  await page.locator('.recoveryKey').waitFor({ timeout: 60_000 })
  const seen = await page.evaluate(() => (window as KeyWindow).stillhandKey)
  const { N, r, p, salt } = seen?.asked?.parameters ?? { N: 0, r: 0, p: 0, salt: '' }
  expect([seen?.asked?.pin, N, r, p]).toEqual([PIN, 2 ** 17, 8, 1])
  // OpenSSL's scrypt, by way of Node.
  const options = { N, r, p, maxmem: 2 ** 30 }
  expect(seen?.key).toEqual([...scryptSync(PIN, Buffer.from(salt, 'hex'), 32, options)])
  process.stdout.write(`the page was held up for ${(seen?.longest_ms ?? NaN).toFixed(0)} ms\n`)
  expect(seen?.longest_ms).toBeLessThan(HELD_UP_ms)
})
