import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import benchTexts from '../../src/data/en/bench.json' with { type: 'json' }
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { layDraws } from '../support/e2eStore.ts'
import { expectFits, SIZES } from '../support/e2eFits.ts'
import { longestStandstill_ms, watchStandstill } from '../support/e2eStandstill.ts'
import { watch } from '../support/e2eWatch.ts'
import { logOf, sampleOpening, straightLines } from '../support/sampleLog.ts'

/** Three tubes each: about 400 on the bench, which is a full day of one device. */
const DRAWS_n = 134
const MINUTE_ms = 60_000

let browser: OpenBrowser
let page: Page
let faults: readonly string[]

/** A draw a minute, the last 40 min ago, so that all serum has clotted and nothing has passed its time by a day. */
function drawsOfToday(): DrawLog[] {
  const last_ms = Date.now() - 40 * MINUTE_ms
  return Array.from({ length: DRAWS_n }, (_, i) => {
    const drawId = `D7-20261125-${String(i + 1).padStart(4, '0')}`
    return logOf(straightLines(sampleOpening({ drawId })), last_ms - i * MINUTE_ms)
  })
}

const group = (step: keyof typeof benchTexts.steps) =>
  page.getByRole('region', { name: benchTexts.steps[step].title, exact: true })

beforeAll(async () => {
  browser = await openBrowser({ isDeaf: true })
  faults = await watch(browser.context, inject('baseUrl'))
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(inject('baseUrl'))
  await page.getByRole('heading', { level: 1 }).waitFor()
  await layDraws(page, drawsOfToday())
  await page.reload()
}, 300_000)

afterAll(() => browser.close())

test('a full bench opens, a run is started by one press and stands after a reload', async () => {
  await page.getByRole('heading', { level: 1 }).waitFor()
  await watchStandstill(page)
  const from = Date.now()
  await page.getByRole('button', { name: new RegExp(`^${benchTexts.title}`) }).click()
  await group('spin').waitFor({ timeout: 60_000 })
  const took_ms = Date.now() - from
  const longest_ms = await longestStandstill_ms(page)
  const specimens = await page.locator('.benchRow').count()
  console.log(
    `${specimens} specimens of ${DRAWS_n} draws: ${took_ms} ms, stood still at most ${Math.round(longest_ms)} ms`,
  )
  expect(specimens).toBe(3 * DRAWS_n)
  await page.locator('.benchRun .button.go').first().click()
  await group('spinning').waitFor({ timeout: 60_000 })
  await expect
    .poll(() => group('spinning').locator('.benchRow').count(), { timeout: 60_000 })
    .toBe(24)
  await page.reload()
  await page.getByRole('button', { name: new RegExp(`^${benchTexts.title}`) }).click()
  await group('spinning').waitFor({ timeout: 60_000 })
  expect(await group('spinning').locator('.benchRow').count()).toBe(24)
  expect(faults).toEqual([])
}, 180_000)

test.each(SIZES)(
  'nothing is wider than a screen of %i by %i, by day and by night',
  (width, height) => expectFits(page, { width, height, name: 'bench' }),
)
