import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest'
import { checkChain } from '../../src/core/log/checkChain.ts'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { goThrough } from '../support/e2eDraw.ts'
import { pressKey } from '../support/pressKey.ts'
import { readLog } from '../support/e2eLog.ts'
import { planByHand, type InventedOrder } from '../support/e2eOrder.ts'
import { watch } from '../support/e2eWatch.ts'
import { sha256 } from '../support/sampleLog.ts'

const ANNA: InventedOrder = {
  ...{ fullName: 'Anna First', birthDate: '1980-05-31', recordNumber: 'MRN-A' },
  tests: ['CBC', 'folate'],
}
const BERTA: InventedOrder = {
  ...{ fullName: 'Berta Second', birthDate: '1951-03-17', recordNumber: 'MRN-B' },
  tests: ['CBC'],
}

interface PrintWindow extends Window {
  /** What stood on the page in print each time it was printed. */
  stillhandPrints?: string[]
}

let browser: OpenBrowser
let page: Page
let faults: readonly string[]

const click = (name: string | RegExp): Promise<void> =>
  page.getByRole('button', { name }).first().click()
const start = async (): Promise<void> => {
  await page.locator('.draw #step-instruction').waitFor()
}
/** Ids of the draws that this browser has stored anything of. */
const drawIds = (): Promise<string[]> =>
  page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('stillhand')
      opening.onsuccess = () => resolve(opening.result)
      opening.onerror = () => reject(new Error('The database cannot be opened.'))
    })
    const keys = await new Promise<IDBValidKey[]>((resolve) => {
      const request = db.transaction('entries').objectStore('entries').getAllKeys()
      request.onsuccess = () => resolve(request.result)
    })
    db.close()
    return [...new Set(keys.map((key) => String((key as [string, number])[0])))]
  })
/** Draws the patient's blood by keys, as the screen asks, and leaves the closed draw. */
async function drawBlood(): Promise<void> {
  await start()
  await goThrough(page, { patient: false, confirm: ({ key }) => pressKey(page, key) })
}
async function openRecord(name: string): Promise<void> {
  await click('Show names')
  await click(new RegExp(`^Open the record of ${name}`))
  await page.getByRole('heading', { level: 1, name: 'Chart note' }).waitFor()
}
/** What is on the page as it would be printed now. */
async function printed(): Promise<string> {
  await page.emulateMedia({ media: 'print' })
  const text = await page.locator('body').innerText()
  await page.emulateMedia({ media: null })
  return text
}

beforeAll(async () => {
  browser = await openBrowser({ width: 1180, height: 820, isDeaf: true })
  faults = await watch(browser.context, inject('baseUrl'))
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.addInitScript(() => {
    const prints: string[] = []
    ;(window as PrintWindow).stillhandPrints = prints
    window.print = () => void prints.push(document.body.innerText)
  })
  await page.goto(inject('baseUrl'))
  await page.locator('h1').waitFor()
})
afterAll(() => browser.close())

describe('two patients in turn', () => {
  test('are drawn, one after the other, on one page', async () => {
    await planByHand(page, ANNA)
    await click('Start the draw')
    await drawBlood()
    await click('Back to the start')
    await planByHand(page, BERTA)
    await click('Start the draw')
    await drawBlood()
    expect(await drawIds()).toHaveLength(2)
  })

  test('the labels printed from a record are of that record', async () => {
    await click('Back to the start')
    await openRecord('Anna First')
    expect(await page.locator('main').innerText()).not.toMatch(/Berta|MRN-B/)
    await click('Labels')
    await page.getByRole('heading', { level: 1, name: 'Labels' }).waitFor()
    expect(await page.locator('main .patientLine').innerText()).toMatch(/Anna First\s+born 31 May 1980\s+record number MRN-A/) // prettier-ignore
    await click('Print labels')
    const onPaper = await printed()
    expect(onPaper).toMatch(/First, Anna/)
    expect(onPaper).toMatch(/MRN-A/)
    expect(onPaper).not.toMatch(/Berta|MRN-B|17 Mar 1951/)
    const [called] = await page.evaluate(() => (window as PrintWindow).stillhandPrints ?? [])
    expect(called).toMatch(/First, Anna/)
    const labels = page.getByRole('article')
    expect(await labels.count()).toBe(2)
    for (const label of await labels.all()) expect(await label.innerText()).toMatch(/First, Anna/)
    await click('Back')
    await page.getByRole('heading', { level: 1, name: 'Chart note' }).waitFor()
    expect(await page.locator('main').innerText()).toMatch(/Anna First/)
    expect(await page.locator('main').innerText()).not.toMatch(/Berta/)
  })

  test('so they are for the other', async () => {
    await click('Back to the start')
    await openRecord('Berta Second')
    await click('Labels')
    await page.getByRole('heading', { level: 1, name: 'Labels' }).waitFor()
    const onPaper = await printed()
    expect(onPaper).toMatch(/Second, Berta/)
    expect(onPaper).not.toMatch(/Anna|MRN-A/)
    await click('Back')
  })

  test('what is added to the record of one stays through its labels, and is in no other', async () => {
    await click('Back to the start')
    await openRecord('Anna First')
    await page.getByLabel('What should be added').fill('The right arm.')
    await page.getByLabel('Why').fill('A slip.')
    await click('Add to the record')
    await page.getByText('The right arm.').waitFor()
    await click('Labels')
    await click('Back')
    await page.getByText('The right arm.').waitFor()
    await click('Spinning started')
    await page.getByRole('button', { name: 'Spinning started' }).waitFor({ state: 'detached' })
    await click('Courier has them')
    await page.getByRole('button', { name: 'Courier has them' }).waitFor({ state: 'detached' })
    const [anna = '', berta = ''] = (await drawIds()).sort()
    const types = async (id: string): Promise<string[]> =>
      (await readLog(page, id)).map(({ event }) => event.type)
    expect((await types(anna)).slice(-4)).toContain('courierTook')
    expect(await types(anna)).toContain('addendumMade')
    expect((await types(berta)).at(-1)).toBe('drawClosed')
    expect(checkChain(await readLog(page, anna), sha256)).toBeUndefined()
  })

  test('the first screen names nobody who was here, unless it is asked to', async () => {
    await click('Back to the start')
    await page.getByRole('heading', { name: 'Earlier draws' }).waitFor()
    expect(await page.locator('.earlier').innerText()).not.toMatch(/Anna|Berta/)
    await click('Show names')
    expect(await page.locator('.earlier').innerText()).toMatch(/Anna First/)
    expect(await page.locator('.earlier').innerText()).toMatch(/Berta Second/)
    await page.reload()
    await page.getByRole('heading', { name: 'Earlier draws' }).waitFor()
    expect(await page.locator('.earlier').innerText()).not.toMatch(/Anna|Berta/)
  })
})

describe('a press that counts twice', () => {
  const stored = async (): Promise<string[]> => (await readLog(page)).map(({ event }) => event.type)
  const confirm = async (): Promise<void> => {
    const stepNow = (): Promise<string | null> => page.locator('.draw').getAttribute('data-step')
    const before = await stepNow()
    // Keys wait for a moment after each change of the step.
    await page.waitForTimeout(1000)
    await pressKey(page, 'Space')
    await expect.poll(stepNow).not.toBe(before)
  }

  test('on "Start the draw" begins one draw, and what follows is stored', async () => {
    const before = (await drawIds()).length
    await planByHand(page, ANNA)
    await page.getByRole('button', { name: 'Start the draw' }).dblclick()
    await start()
    await confirm()
    await confirm()
    await expect.poll(stored).toContain('consentGiven')
    expect(await drawIds()).toHaveLength(before + 1)
  })

  test('on "Go on" goes on once, and what follows is stored', async () => {
    await page.reload()
    await page
      .getByRole('button', { name: /^Go on with the draw of Anna First/ })
      .first()
      .dblclick()
    await start()
    await confirm()
    await expect.poll(stored).toContain('preparationChecked')
    expect((await stored()).filter((type) => type === 'awayNoticed')).toHaveLength(1)
  })

  test('as a key that is held on "Start the draw" begins one draw', async () => {
    await page.reload()
    const before = (await drawIds()).length
    await planByHand(page, BERTA)
    await page.getByRole('button', { name: 'Start the draw' }).focus()
    for (let i = 0; i < 12; i++) await page.keyboard.down('Enter')
    await page.keyboard.up('Enter')
    await start()
    await page.waitForTimeout(500)
    expect(await drawIds()).toHaveLength(before + 1)
    // The held key confirms nothing on the screen it led to either.
    expect(await stored()).toEqual(['drawOpened'])
  })
})

test('nothing broke the content policy or failed', () => {
  expect(faults).toEqual([])
})
