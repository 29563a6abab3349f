import { scryptSync } from 'node:crypto'
import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { openBrowser, type OpenBrowser } from '../../support/e2eBrowser.ts'

const ASSETS = join(import.meta.dirname, '..', '..', '..', 'dist', 'assets')
const SALT = '000102030405060708090a0b0c0d0e0f'
/** A page that is held up for longer than this no longer keeps its clocks. */
const HELD_UP_ms = 100

let browser: OpenBrowser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(inject('baseUrl'))
})
afterAll(() => browser.close())

/** Has the built worker make one key, and measures how long the page was held up meanwhile. */
async function makeKey(pin: string, N: number) {
  const file = readdirSync(ASSETS).find((name) => name.startsWith('slowKey.worker-'))
  if (file === undefined) throw new Error('The build has no worker for the slow key.')
  return page.evaluate(
    async ({ url, pin: typed, n, salt }) => {
      let last_ms = performance.now()
      let held_ms = 0
      const beat = setInterval(() => {
        held_ms = Math.max(held_ms, performance.now() - last_ms - 20)
        last_ms = performance.now()
      }, 20)
      const worker = new Worker(url, { type: 'module' })
      const answer = await new Promise<{ key?: Uint8Array; reason?: string }>((resolve) => {
        worker.onmessage = ({ data }: MessageEvent<{ key?: Uint8Array; reason?: string }>) => resolve(data) // prettier-ignore
        worker.postMessage({ pin: typed, parameters: { name: 'scrypt', N: n, r: 8, p: 1, salt } })
      })
      clearInterval(beat)
      worker.terminate()
      return { key: answer.key && [...answer.key], reason: answer.reason, held_ms }
    },
    { url: `/assets/${file}`, pin, n: N, salt: SALT },
  )
}

test('the worker makes the key that another implementation makes, and the page goes on meanwhile', async () => {
  const { key, held_ms } = await makeKey('482913', 2 ** 17)
  // OpenSSL's scrypt, by way of Node.
  const options = { N: 2 ** 17, r: 8, p: 1, maxmem: 2 ** 30 }
  expect(key).toEqual([...scryptSync('482913', Buffer.from(SALT, 'hex'), 32, options)])
  process.stdout.write(`the page was held up for ${held_ms.toFixed(0)} ms\n`)
  expect(held_ms).toBeLessThan(HELD_UP_ms)
})

test('what it cannot make it says, and does not hang', async () => {
  const { key, reason } = await makeKey('482913', 3)
  expect(key).toBeUndefined()
  expect(reason).toMatch(/N/)
})
