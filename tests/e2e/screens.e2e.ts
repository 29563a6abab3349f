import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import { axeFindings, largerThanClock, overflow_px, smallTargets } from '../support/e2eAudit.ts'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { goThrough } from '../support/e2eDraw.ts'
import { pressKey } from '../support/pressKey.ts'
import { watch } from '../support/e2eWatch.ts'

const LOOKS = [
  { name: 'light, landscape', colorScheme: 'light', width: 1280, height: 800 },
  { name: 'dark, portrait', colorScheme: 'dark', width: 800, height: 1280 },
] as const

describe.each(LOOKS)('$name', ({ colorScheme, width, height }) => {
  let browser: OpenBrowser
  let page: Page
  let faults: readonly string[]
  const findings: string[] = []

  /** Looks at what is on the screen now; what is wrong is collected under its name. */
  async function audit(screen: string): Promise<void> {
    await page.waitForTimeout(300)
    const note = (kind: string, found: readonly string[]): void =>
      void findings.push(...found.map((line) => `${screen}, ${kind}: ${line}`))
    note('axe', await axeFindings(page))
    note('small', await smallTargets(page))
    note('larger than the clock', await largerThanClock(page))
    const wide_px = await overflow_px(page)
    if (wide_px > 0) note('too wide', [`${wide_px} px`])
  }
  const click = (name: string | RegExp): Promise<void> =>
    page.getByRole('button', { name }).first().click()

  beforeAll(async () => {
    browser = await openBrowser({ width, height, isDeaf: true })
    faults = await watch(browser.context, inject('baseUrl'))
    page = browser.context.pages()[0] ?? (await browser.context.newPage())
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' })
    await page.goto(inject('baseUrl'))
    await page.locator('h1').waitFor()
  })
  afterAll(() => browser.close())

  test('screens before and after the draw', async () => {
    findings.length = 0
    await audit('home')
    const places = await page.locator('.places button strong').allInnerTexts()
    for (const place of places) {
      await page.locator('.places button', { hasText: place }).click()
      await audit(place)
      await page.reload()
      await page.locator('h1').waitFor()
    }
    await click('New draw')
    await audit('order')
    await click('Plan the tubes')
    await audit('order with errors')
    await click('Back to the start')
    await click('Try the invented demo')
    await audit('demo order')
    await click('Plan the tubes')
    await audit('plan')
    expect(findings).toEqual([])
  })

  test('every step of the draw', async () => {
    findings.length = 0
    await click('Start the draw')
    await page.locator('.draw #step-instruction').waitFor()
    await click('What else happened')
    await audit('what else happened')
    await page.keyboard.press('Escape')
    const seen = new Set<string>()
    await goThrough(page, {
      patient: false,
      look: async ({ step }) => {
        if (!seen.has(step)) await audit(step)
        seen.add(step)
      },
      confirm: ({ key }) => pressKey(page, key),
    })
    await audit('closed')
    expect(seen.size).toBeGreaterThan(20)
    expect(findings).toEqual([])
  })

  test('chart and labels', async () => {
    findings.length = 0
    await click('Read the chart note')
    await audit('chart')
    await click('Labels')
    await audit('labels')
    expect(findings).toEqual([])
  })

  test('a question before what is hard to take back, and the alarm when everything is stopped', async () => {
    findings.length = 0
    await page.reload()
    await click('Try the invented demo')
    await click('Plan the tubes')
    await click('Start the draw')
    await page.locator('.draw #step-instruction').waitFor()
    await click(/not this patient/i)
    await page.locator('.draw .ask').waitFor()
    await audit('question')
    await click(/“answer no”/)
    await page.locator('.draw .ask').waitFor({ state: 'detached' })
    await click(/stop everything/i)
    await audit('stopped')
    expect(await page.locator('.draw.isSevere').count()).toBe(1)
    expect(findings).toEqual([])
  })

  test('nothing broke the content policy or failed', () => {
    expect(faults).toEqual([])
  })
})
