import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import { LANGUAGE_FILES } from '../../src/data/languages.ts'
import { overflow_px } from '../support/e2eAudit.ts'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { goThrough } from '../support/e2eDraw.ts'
import { readLog } from '../support/e2eLog.ts'
import { pressKey } from '../support/pressKey.ts'
import { shippedSite } from '../support/site.ts'
import { useQuickLimits } from '../support/quickLimits.ts'

const spanish = LANGUAGE_FILES.es
const { screens, figures, language } = spanish.texts
/** Stand as the site's catalog has them. */
const TESTS = new Set(shippedSite.catalogue.tests.map(({ name }) => name))

/** Words that hardly a line of English does without, and that Spanish does not have. */
const ENGLISH = /\b(the|and|with|from|not|this|that|of|to|is|are|was|for|be|by|on|or|your|it)\b/i
/** English for a reason: what is said aloud, and names of tests. */
const RIGHTLY = '.phrase, kbd, option'
const IS_RIGHTLY = (line: string): boolean =>
  TESTS.has(line) || /^(Fuente: |\()/.test(line) || /"(next patient|read the list)"/.test(line)

let browser: OpenBrowser
let page: Page
const english: string[] = []
const wide: string[] = []

beforeAll(async () => {
  browser = await openBrowser({ isDeaf: true })
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
})
afterAll(() => browser.close())

const press = (name: string): Promise<void> =>
  page.getByRole('button', { name, exact: false }).first().click()

/** Each line of text on the screen that reads like English, and whether something is wider than a phone. */
async function look(screen: string): Promise<void> {
  const lines = await page.evaluate((rightly) => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    const found: string[] = []
    while (walker.nextNode()) {
      const node = walker.currentNode
      const text = node.textContent?.trim() ?? ''
      if (text !== '' && !node.parentElement?.closest(rightly)) found.push(text)
    }
    return found
  }, RIGHTLY)
  english.push(
    ...lines
      .filter((line) => ENGLISH.test(line) && !IS_RIGHTLY(line))
      .map((line) => `${screen}: ${line}`),
  )
  const over_px = await overflow_px(page)
  if (over_px > 0) wide.push(`${screen}: ${over_px} px`)
  const folder = process.env['STILLHAND_SHOTS']
  if (folder !== undefined)
    await page.screenshot({ path: `${folder}/es-${screen}.png`, fullPage: true })
}

test('chosen in the settings, Spanish stands on every screen of a draw, its note and its labels', async () => {
  await page.setViewportSize({ width: 390, height: 844 })
  await page.goto(inject('baseUrl'))
  await useQuickLimits(page)
  await press('Settings')
  await page.getByLabel('Language of this device').selectOption('es')
  await page.waitForFunction(() => document.documentElement.lang === 'es')
  await page.getByRole('button', { name: screens.home.settings }).waitFor()
  await look('home')
  for (const [name, title] of [
    [screens.home.settings, screens.settings.title],
    [screens.home.micCheck, screens.micCheck.title],
    [screens.home.figures, figures.title],
  ] as const) {
    await press(name)
    await page.getByRole('heading', { name: title, level: 1 }).waitFor()
    await look(title)
    await press(screens.app.backTo.start)
  }
  await press(screens.home.demo)
  await page.getByRole('button', { name: screens.order.plan }).waitFor()
  await look('order')
  await press(screens.order.plan)
  await page.getByRole('button', { name: screens.plan.start }).waitFor()
  await look('plan')
  await press(screens.plan.start)
  await page.locator('.draw #step-instruction').waitFor()
  await goThrough(page, {
    patient: false,
    look: async ({ step }) => {
      await look(`draw ${step}`)
      return undefined
    },
    confirm: ({ key }) => pressKey(page, key),
  })
  await press(screens.draw.readNote)
  await page.getByRole('heading', { name: screens.chart.title, level: 1 }).waitFor()
  await look('chart')

  // What was recorded is the same in any language.
  const log = await readLog(page)
  expect(log.at(-1)?.event.type).toBe('drawClosed')
  expect(await page.locator('main').innerText()).toContain(spanish.texts.note.sections[0]?.title)
  expect(wide).toEqual([])
  expect(english).toEqual([])

  // Chosen once, it stays over a reload, and English comes back the same way.
  await page.goto(inject('baseUrl'))
  await page.getByRole('button', { name: screens.home.settings }).waitFor()
  await press(screens.home.settings)
  await page.getByLabel(language.setting.label).selectOption('en')
  await page.waitForFunction(() => document.documentElement.lang === 'en')
  await page.getByRole('button', { name: 'Settings' }).waitFor()
}, 300_000)
