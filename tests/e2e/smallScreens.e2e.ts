import { afterAll, beforeAll, beforeEach, describe, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import { axeFindings, overflow_px } from '../support/e2eAudit.ts'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { goThrough, startDemo } from '../support/e2eDraw.ts'
import { pressKey } from '../support/pressKey.ts'

let browser: OpenBrowser
let page: Page

beforeAll(async () => {
  browser = await openBrowser({ isDeaf: true })
})
afterAll(() => browser.close())
beforeEach(async () => {
  page = await browser.context.newPage()
})

/** From the first screen to the first tube, with the band on; every step is handed to `look`. */
async function toTheBand(look: (title: string) => Promise<void>): Promise<void> {
  await page.goto(inject('baseUrl'))
  await page.locator('h1').waitFor()
  await look('home')
  await startDemo(page)
  await goThrough(page, {
    patient: false,
    look: async ({ step, phrase }) => {
      await look(step)
      return phrase === 'tube complete' ? 'stop' : undefined
    },
    confirm: ({ key }) => pressKey(page, key),
  })
}

/** Whether a point in the middle of an element belongs to it: nothing lies over it, and it is in sight. */
const isOpen = (selector: string): Promise<boolean> =>
  page.evaluate((wanted) => {
    const element = document.querySelector(wanted)
    if (!element) return false
    const { left, top, width, height } = element.getBoundingClientRect()
    const points = [0.1, 0.5, 0.9].map((part) => [left + width / 2, top + height * part] as const)
    return points.every(([x, y]) => element.contains(document.elementFromPoint(x, y)))
  }, selector)

// 400 % of 1280 x 1024, as WCAG 2.2, 1.4.10 has it; the others are small phones.
describe.each([
  [320, 256],
  [320, 568],
  [360, 740],
])('%d x %d', (width, height) => {
  test('every screen up to the first tube fits its width, and nothing covers the clock of the band', async () => {
    await page.setViewportSize({ width, height })
    const wide: string[] = []
    await toTheBand(async (title) => {
      const over_px = await overflow_px(page)
      if (over_px > 0) wide.push(`${title}: ${over_px} px`)
    })
    expect(wide).toEqual([])
    await page.evaluate(() => {
      // Storage and sound fail: each has a line of its own above the step.
      IDBObjectStore.prototype.add = () => {
        throw new DOMException('full', 'QuotaExceededError')
      }
    })
    await pressKey(page, 'Space')
    await page.locator('.draw .troubleBox').waitFor()
    expect(await isOpen('.draw .bigClock .time')).toBe(true)
    await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight))
    expect(await isOpen('.draw .bigClock .time')).toBe(true)
    if (height > 480) expect(await isOpen('.draw .safetyRow .choice.stop')).toBe(true)
  })
})

test('on a phone everything that identifies the patient is in sight with the answer to it', async () => {
  await page.setViewportSize({ width: 390, height: 844 })
  await page.goto(inject('baseUrl'))
  await startDemo(page)
  await page.locator('.draw .identity').waitFor()
  const n = await page.locator('.draw .identity > div').count()
  expect(n).toBe(3)
  for (let i = 1; i <= n; i++) {
    expect(await isOpen(`.draw .identity > div:nth-child(${i}) dd`)).toBe(true)
  }
  expect(await isOpen('.draw .choice.main')).toBe(true)
})

test('in forced colors everything that can be pressed has an edge, and axe finds nothing', async () => {
  await page.emulateMedia({ forcedColors: 'active' })
  const findings: string[] = []
  await toTheBand(async (title) => {
    const bare = await page.evaluate(() =>
      [...document.querySelectorAll('.draw button, .begin button')].flatMap((button) => {
        const { borderTopWidth, borderTopStyle } = getComputedStyle(button)
        const hasEdge = parseFloat(borderTopWidth) >= 1 && borderTopStyle !== 'none'
        return hasEdge ? [] : [button.textContent ?? '']
      }),
    )
    findings.push(...bare.map((text) => `${title}, no edge: ${text}`))
  })
  findings.push(...(await axeFindings(page)))
  expect(await page.evaluate(() => matchMedia('(forced-colors: active)').matches)).toBe(true)
  expect(findings).toEqual([])
})

test('with reduced motion nothing moves by itself', async () => {
  await page.emulateMedia({ reducedMotion: 'reduce' })
  const moving: string[] = []
  await toTheBand(async (title) => {
    const found = await page.evaluate(() => document.getAnimations().length)
    if (found > 0) moving.push(`${title}: ${found}`)
  })
  expect(moving).toEqual([])
  const lengths = await page.evaluate(() =>
    [...document.querySelectorAll('*')].flatMap((element) => {
      const { transitionDuration, animationName } = getComputedStyle(element)
      const still = /^0s(, 0s)*$/.test(transitionDuration) && animationName === 'none'
      return still ? [] : [element.className]
    }),
  )
  expect(lengths).toEqual([])
})
