import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import figureTexts from '../../src/data/en/figures.json' with { type: 'json' }
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { layDraws } from '../support/e2eStore.ts'
import { expectFits, SIZES } from '../support/e2eFits.ts'
import { longestStandstill_ms, watchStandstill } from '../support/e2eStandstill.ts'
import { watch } from '../support/e2eWatch.ts'
import { logOf, sampleOpening, straightLines } from '../support/sampleLog.ts'
import { WIDE } from '../support/wide.ts'

/** As many as a site may have on one device; `STILLHAND_WIDE=1` reads them all. */
const DRAWS_n = WIDE ? 2000 : 60
const DAY_ms = 86_400_000
/** While records are read a press must be answered: no part of the reading may hold the page up longer than this. */
const STILL_MOST_part = 1 / 4

let browser: OpenBrowser
let page: Page
let faults: readonly string[]

/** Several a day up to today; every seventh with a tourniquet over its limit, every ninth with a faint. */
function drawsToday(n: number): DrawLog[] {
  const today_ms = new Date().setHours(9, 0, 0, 0)
  const perDay = Math.ceil(n / 180)
  return Array.from({ length: n }, (_, i) => {
    const drawId = `D7-20261125-${String(i + 1).padStart(4, '0')}`
    const lines = straightLines(sampleOpening({ drawId })).flatMap((line): (typeof line)[] => {
      const [at_s, event, extra = {}] = line
      return i % 7 === 0 && event.type === 'bandOff' ? [[at_s + 22, event, extra]] : [line]
    })
    const faint = i % 9 === 0 ? [[169, { type: 'exceptionRaised', kind: 'faint' }] as const] : []
    return logOf([...lines, ...faint], today_ms - Math.floor(i / perDay) * DAY_ms)
  })
}

beforeAll(async () => {
  browser = await openBrowser({ isDeaf: true })
  faults = await watch(browser.context, inject('baseUrl'))
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(inject('baseUrl'))
  await page.getByRole('heading', { level: 1 }).waitFor()
  await layDraws(page, drawsToday(DRAWS_n))
  await page.reload()
}, 300_000)

afterAll(() => browser.close())

test('the figures are drawn under the content policy, and the page answers while they are read', async () => {
  await watchStandstill(page)
  const from = Date.now()
  await page.getByRole('button', { name: new RegExp(figureTexts.title) }).click()
  await page.getByRole('radio', { name: figureTexts.spans.weeks }).waitFor()
  await page.getByText(new RegExp(`^${DRAWS_n} closed draws`)).waitFor({ timeout: 120_000 })
  const took_ms = Date.now() - from
  const longest_ms = await longestStandstill_ms(page)
  console.log(`${DRAWS_n} draws: ${took_ms} ms, stood still at most ${Math.round(longest_ms)} ms`)
  // With few draws the one drawing of the charts is most of the time.
  if (WIDE) expect(longest_ms / took_ms).toBeLessThan(STILL_MOST_part)
  expect(await page.locator('.chartPicture svg').count()).toBeGreaterThan(8)
  expect(faults).toEqual([])
}, 180_000)

test.each(SIZES)(
  'nothing is wider than a screen of %i by %i, by day and by night',
  (width, height) => expectFits(page, { width, height, name: 'figures', fullPage: true }),
)

test('the figures are printed as drawn lines, with their words', async () => {
  await page.emulateMedia({ media: 'print', colorScheme: 'light' })
  const pdf = await page.pdf({ format: 'A4' })
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-')
  expect(await page.locator('.figureChoice').isVisible()).toBe(false)
  expect(await page.locator('.chartPicture svg').first().isVisible()).toBe(true)
  // Drawn as lines: no picture of points is in the file.
  expect(pdf.includes('/Subtype /Image')).toBe(false)
  await page.emulateMedia({ media: null })
})
