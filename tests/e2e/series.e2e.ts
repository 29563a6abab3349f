import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { goThrough } from '../support/e2eDraw.ts'
import { pressKey } from '../support/pressKey.ts'
import { readLog } from '../support/e2eLog.ts'
import { planByHand, type InventedOrder } from '../support/e2eOrder.ts'
import { watch } from '../support/e2eWatch.ts'

const ANNA: InventedOrder = {
  ...{ fullName: 'Anna First', birthDate: '1980-05-31', recordNumber: 'MRN-A' },
  tests: ['Glucose tolerance 75 g, fasting and 2 h'],
}
const BERTA: InventedOrder = {
  ...{ fullName: 'Berta Second', birthDate: '1951-03-17', recordNumber: 'MRN-B' },
  tests: ['Glucose tolerance 75 g, fasting and 2 h'],
}

let browser: OpenBrowser
let page: Page
let faults: readonly string[]

const click = (name: string | RegExp): Promise<void> =>
  page.getByRole('button', { name }).first().click()
const seriesOf = (name: string) => page.locator('.seriesList > ul > li').filter({ hasText: name })

async function drawBlood(): Promise<void> {
  await page.locator('.draw #step-instruction').waitFor()
  await goThrough(page, { patient: false, confirm: ({ key }) => pressKey(page, key) })
  await click('Back to the start')
}

/** What the labels of the newest draw say. */
async function labelsOf(name: string): Promise<readonly string[]> {
  await click('Show names')
  await click(new RegExp(`^Open the record of ${name}`))
  await click('Labels')
  await page.getByRole('heading', { level: 1, name: 'Labels' }).waitFor()
  const labels = await page.getByRole('article').allInnerTexts()
  await click('Back')
  await click('Back to the start')
  return labels
}

beforeAll(async () => {
  browser = await openBrowser({ width: 1180, height: 820, isDeaf: true })
  faults = await watch(browser.context, inject('baseUrl'))
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(inject('baseUrl'))
  await page.locator('h1').waitFor()
})
afterAll(() => browser.close())

describe('two patients, each drawn twice for one order', () => {
  test('the plan shows both draws with their blood, and the fasting samples are drawn', async () => {
    await planByHand(page, ANNA)
    const later = page.locator('.laterSittings')
    expect(await later.innerText()).toMatch(/2 h/)
    expect(await later.innerText()).toMatch(/120 min after: drink finished/)
    expect(await later.innerText()).toMatch(/mL of blood in all draws together/)
    await click('Start the draw')
    await drawBlood()
    await planByHand(page, BERTA)
    await click('Start the draw')
    await drawBlood()
    expect(await page.locator('.seriesList').innerText()).toMatch(/Waits for: drink finished/)
  })

  test('the drink is told for one of them, survives a reload, and gives a due time', async () => {
    await seriesOf('Anna First').getByRole('button', { name: 'Drink finished now' }).click()
    await seriesOf('Anna First').locator('.due').waitFor()
    await page.reload()
    await seriesOf('Anna First').locator('.due').waitFor()
    expect(await seriesOf('Anna First').innerText()).toMatch(/due \d\d:\d\d in 1(19|20) min/)
    expect(await seriesOf('Berta Second').innerText()).toMatch(/Waits for: drink finished/)
    await seriesOf('Berta Second').getByRole('button', { name: 'Drink finished now' }).click()
    await seriesOf('Berta Second').locator('.due').waitFor()
  })

  test('the request of a series prints alone, with what was drawn and a line for the rest', async () => {
    await seriesOf('Anna First').getByRole('button', { name: 'Print the request' }).click()
    await page.emulateMedia({ media: 'print' })
    const paper = page.locator('.seriesRequest')
    await paper.waitFor()
    expect(await page.locator('.seriesList').isVisible()).toBe(false)
    const text = await paper.innerText()
    expect(text).toMatch(/First, Anna[\s\S]*fasting, 1 of 2[\s\S]*drawn \d\d:\d\d/)
    expect(text).toMatch(/2 h, 2 of 2[\s\S]*due \d\d:\d\d[\s\S]*Collected on, at _+/)
    expect(text).not.toMatch(/Berta|MRN-B/)
    await page.emulateMedia({ media: 'screen' })
    expect(await paper.isVisible()).toBe(false)
  })

  test('the second sample asks for the identity of its own patient again', async () => {
    await seriesOf('Berta Second')
      .getByRole('button', { name: /^Draw 2 h/ })
      .click()
    await page.locator('.draw #step-instruction').waitFor()
    expect(await page.locator('.draw').innerText()).toMatch(/Berta Second/)
    expect(await page.locator('.draw').innerText()).toMatch(/2 h, 2 of 2, due \d\d:\d\d/)
    expect(await page.locator('.draw').getAttribute('data-step')).toBe('identity')
    await drawBlood()
    await seriesOf('Anna First')
      .getByRole('button', { name: /^Draw 2 h/ })
      .click()
    await drawBlood()
    expect(await page.locator('.seriesList').count()).toBe(0)
  })

  test('each label bears its own patient and time point, and the record says how early it was', async () => {
    const [berta, anna] = [await labelsOf('Berta Second'), await labelsOf('Anna First')]
    expect(berta).toHaveLength(1)
    expect(berta[0]).toMatch(/Second, Berta[\s\S]*MRN-B[\s\S]*2 h, 2 of 2/)
    expect(anna[0]).toMatch(/First, Anna[\s\S]*MRN-A[\s\S]*2 h, 2 of 2/)
    await click('Show names')
    await click(/^Open the record of Anna First/)
    await page.getByRole('heading', { level: 1, name: 'Chart note' }).waitFor()
    const note = await page.locator('main').innerText()
    expect(note).toMatch(/2 h \(2 of 2\), due [\d:]+( on [^,]+)?, drawn 1(1\d|20) min early/)
    expect(note).toMatch(/Drawn outside its time/)
    expect(note).not.toMatch(/Berta|MRN-B/)
    const [opened] = await readLog(page)
    expect(opened?.event).toMatchObject({ patient: { recordNumber: 'MRN-A' } })
  })

  test('nothing went wrong on the way', () => {
    expect(faults).toEqual([])
  })
})
