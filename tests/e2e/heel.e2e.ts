import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { firstOf, flagsOf, goThrough } from '../support/e2eDraw.ts'
import { pressKey } from '../support/pressKey.ts'
import { fillDay, sayWhoDraws } from '../support/e2eOrder.ts'
import { readLog } from '../support/e2eLog.ts'
import { watch } from '../support/e2eWatch.ts'

let browser: OpenBrowser
let page: Page
let faults: readonly string[]

beforeAll(async () => {
  browser = await openBrowser({ isDeaf: true })
  faults = await watch(browser.context, inject('baseUrl'))
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
})

afterAll(() => browser.close())

const click = (name: string | RegExp): Promise<void> =>
  page.getByRole('button', { name }).first().click()

interface Newborn {
  readonly givenNames: string
  readonly days: number
  readonly weight_kg: string
  /** Of the record; the order's number is made from it. */
  readonly number: string
  readonly tests: readonly string[]
}

/** Types the order of a newborn of the family Quince into a new form. */
async function orderFor({ givenNames, days, weight_kg, number, tests }: Newborn): Promise<void> {
  const born = new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10)
  await page.goto(inject('baseUrl'))
  await click(/^New draw/)
  await page.getByRole('textbox', { name: 'Family name' }).fill('Quince')
  await page.getByLabel('Given names').fill(givenNames)
  await fillDay(page, 'Date of birth', born)
  await page.getByLabel('Record number').fill(number)
  await page.getByLabel('Order number').fill(`O-${number}`)
  await page.getByRole('textbox', { name: /^Weight/ }).fill(weight_kg)
  for (const wanted of tests) {
    await page.getByRole('combobox', { name: 'Tests ordered' }).fill(wanted)
    await page.keyboard.press('Enter')
  }
}

test('a newborn from the order to the labels, by the heel', async () => {
  const tests = ['CBC', 'Bilirubin, total']
  await orderFor({ givenNames: 'Baby A', days: 3, weight_kg: '3.2', number: 'N-1', tests })

  // A finger of that age is a stop, whoever would let it pass; a vein is planned, and the heel proposed.
  const way = page.getByLabel('Blood from')
  await way.selectOption({ label: 'A finger, by lancet' })
  await click('Plan the tubes')
  await page.getByText('No finger is lanced under one year.').first().waitFor()
  expect(await page.getByRole('button', { name: 'Start the draw' }).count()).toBe(0)
  await click('Back to the order')
  await way.selectOption({ label: 'A vein' })
  await click('Plan the tubes')
  await click('Plan it that way')
  await expect.poll(() => page.getByRole('heading', { name: 'Band (tourniquet)' }).count()).toBe(0)
  await sayWhoDraws(page)
  await click('Start the draw')
  await page.locator('.draw #step-instruction').waitFor()

  const steps: string[] = []
  await goThrough(page, {
    patient: false,
    look: async ({ step }) => {
      steps.push(step)
      // A page that begins anew goes on where it was.
      if (['wipe', 'drops', 'press'].includes(step)) {
        await page.reload()
        await click(/^Go on/)
        const draw = page.locator('.draw')
        await draw.waitFor()
        expect(await draw.getAttribute('data-step')).toBe(step)
      }
    },
    confirm: ({ key }) => pressKey(page, key),
  })
  expect(steps).not.toContain('band')
  expect(steps).toEqual(expect.arrayContaining(['side', 'warm', 'wipe']))
  expect(steps).not.toContain('bandage')

  const log = await readLog(page)
  expect(firstOf(log, 'drawOpened').event).toMatchObject({ collecting: 'capillaryHeel' })
  expect(firstOf(log, 'drawClosed').event).toMatchObject({ outcome: 'complete' })
  // Nothing was waited for, and the record says so of the skin alone: no length of pressure is asked for.
  expect(flagsOf(log)).toEqual(['skinNotDry'])

  await click('Labels')
  await page.getByText('Capillary, left heel').first().waitFor()
  expect(await page.getByText('Capillary, left heel').count()).toBe(2)
  expect(faults).toEqual([])
})

test('a newborn card from the order to flat and dry, reloaded at its steps, after another baby on the same page', async () => {
  const tests = ['Newborn screening card']
  await orderFor({ givenNames: 'Baby B', days: 2, weight_kg: '3.1', number: 'N-2', tests })
  await page.getByLabel('Fed with').selectOption({ label: 'Formula' })

  // From a vein there is no card: the heel is proposed, and the whole plan is paper.
  await click('Plan the tubes')
  await page
    .getByText(/drops on paper and never blood of a vein/)
    .first()
    .waitFor()
  await click('Plan it that way')
  await page.getByText('Filter paper card').first().waitFor()
  await sayWhoDraws(page)
  await click('Start the draw')
  await page.locator('.draw #step-instruction').waitFor()

  const steps: string[] = []
  const reloaded = new Set<string>()
  await goThrough(page, {
    patient: false,
    look: async ({ step }) => {
      steps.push(step)
      if (!['card', 'circle', 'cardOff'].includes(step) || reloaded.has(step)) return
      reloaded.add(step)
      await page.reload()
      await click(/^Go on/)
      const draw = page.locator('.draw')
      await draw.waitFor()
      expect(await draw.getAttribute('data-step')).toBe(step)
    },
    confirm: ({ key }) => pressKey(page, key),
  })
  expect(steps.filter((step) => step === 'circle')).toHaveLength(5)
  expect(steps).not.toContain('feeding')
  expect(steps).not.toContain('drops')
  expect([...reloaded].sort()).toEqual(['card', 'cardOff', 'circle'])

  const log = await readLog(page)
  const circles = log.flatMap(({ event }) => (event.type === 'circleFilled' ? [event.finding] : []))
  expect(circles).toEqual(Array.from({ length: 5 }, () => 'good'))
  expect(log.map(({ event }) => event.type)).toContain('tubeHandled')
  expect(firstOf(log, 'drawClosed').event).toMatchObject({ outcome: 'complete' })
  // The draw of the baby before left nothing in this one.
  expect(firstOf(log, 'drawOpened').event.patient.recordNumber).toBe('N-2')
  expect(JSON.stringify(log)).not.toContain('"N-1"')
  expect(faults).toEqual([])
})
