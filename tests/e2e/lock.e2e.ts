import { mkdirSync } from 'node:fs'
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import { axeFindings, overflow_px } from '../support/e2eAudit.ts'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { startDemo } from '../support/e2eDraw.ts'
import { pressKey } from '../support/pressKey.ts'
import { watch } from '../support/e2eWatch.ts'

const PIN = '482913'
const SECOND = '771144'
const WRONG = '000017'
/** Where pictures of the screens go, for whoever wants to look at them. */
const PICTURES = process.env['STILLHAND_PICTURES']

const SIZES = [
  { width: 1180, height: 820 },
  { width: 390, height: 844 },
] as const

describe.each(SIZES)('a device with a PIN, $width x $height', ({ width, height }) => {
  let browser: OpenBrowser
  let page: Page
  let faults: readonly string[]
  let recoveryKey = ''

  const press = (name: string | RegExp): Promise<void> =>
    page.getByRole('button', { name, exact: true }).first().click()
  const toSettings = (): Promise<void> => page.locator('.places button', { hasText: 'Settings' }).click() // prettier-ignore
  const isLocked = (): Promise<void> =>
    page.getByRole('heading', { level: 1, name: 'Locked' }).waitFor({ timeout: 30_000 })
  const isOpen = (): Promise<void> =>
    page.getByRole('button', { name: /^New draw/ }).waitFor({ timeout: 30_000 })
  async function type(pin: string): Promise<void> {
    await page.getByLabel('PIN', { exact: true }).fill(pin)
    await press('Open')
  }
  /** Nothing is too wide or unreadable; a picture for whoever asked for it. */
  async function look(name: string): Promise<void> {
    await page.waitForTimeout(200)
    expect(await overflow_px(page), name).toBe(0)
    expect(await axeFindings(page), name).toEqual([])
    if (PICTURES === undefined) return
    mkdirSync(PICTURES, { recursive: true })
    await page.screenshot({ path: `${PICTURES}/${name}-${width}.png`, fullPage: true })
  }
  const secretsStored = (): Promise<boolean> =>
    page.evaluate(
      () =>
        new Promise<boolean>((resolve, reject) => {
          const opening = indexedDB.open('stillhand')
          opening.onerror = () => reject(new Error('The database cannot be opened.'))
          opening.onsuccess = () => {
            const db = opening.result
            const tx = db.transaction(['entries', 'draws'])
            const rows = ['entries', 'draws'].map((name) => tx.objectStore(name).getAll())
            tx.oncomplete = () => {
              db.close()
              resolve(/Testwell|consentGiven/.test(JSON.stringify(rows.map(({ result }) => result as unknown)))) // prettier-ignore
            }
          }
        }),
    )

  beforeAll(async () => {
    browser = await openBrowser({ width, height, isDeaf: true })
    faults = await watch(browser.context, inject('baseUrl'))
    page = browser.context.pages()[0] ?? (await browser.context.newPage())
    await page.goto(inject('baseUrl'))
    await startDemo(page)
    await pressKey(page, 'Space', { delay: 80 })
    await page.waitForTimeout(500)
    await page.reload()
  })
  afterAll(() => browser.close())

  test('is set up: the recovery key is shown once, and what is stored is sealed', async () => {
    expect(await secretsStored()).toBe(true)
    await toSettings()
    await page.getByLabel('PIN', { exact: true }).fill(PIN)
    await page.getByLabel('The same PIN again').fill(WRONG)
    await press('Set the PIN')
    await page.getByText('The two PINs differ.').waitFor()
    await page.getByLabel('The same PIN again').fill(PIN)
    await press('Set the PIN')
    await page.locator('.recoveryKey').waitFor({ timeout: 60_000 })
    recoveryKey = await page.locator('.recoveryKey').innerText()
    expect(recoveryKey).toMatch(/^([0-9A-Z]{4}-){7}[0-9A-Z]{4}$/)
    await look('recovery-key')
    await page.getByLabel('The key is printed or written down').check()
    await press('Done')
    await expect.poll(secretsStored, { timeout: 20_000 }).toBe(false)
    await look('settings-with-pin')
  })

  test('locks over a reload; a wrong PIN opens nothing, and from the fourth on it costs time', async () => {
    await page.reload()
    await isLocked()
    expect(await page.locator('body').innerText()).not.toContain('Testwell')
    await look('locked')
    for (let n = 0; n < 4; n++) {
      // The waits after the third are told in seconds, and no PIN is taken meanwhile.
      await page.getByRole('button', { name: 'Digit 1', exact: true }).and(page.locator(':enabled')).waitFor({ timeout: 30_000 }) // prettier-ignore
      await type(WRONG)
      await page.getByText('This PIN is not right.').waitFor({ timeout: 30_000 })
    }
    await page.getByText(/No PIN is tried for \d+ more seconds/).waitFor()
    await look('locked-waiting')
    await page.reload()
    await isLocked()
    await page.getByText(/No PIN is tried for \d+ more seconds/).waitFor()
    expect(await page.getByRole('button', { name: 'Open', exact: true }).isDisabled()).toBe(true)
  })

  test('opens by the recovery key, which sets a new PIN', async () => {
    await press('Use the recovery key')
    await page.getByLabel('Recovery key').fill(recoveryKey.replace(/^..../, '0000'))
    await page.getByLabel('New PIN').fill(SECOND)
    await look('locked-recovery')
    await press('Open and set the new PIN')
    await page.getByText('This recovery key is not right. Nothing was changed.').waitFor()
    await page.getByLabel('Recovery key').fill(recoveryKey)
    await press('Open and set the new PIN')
    await isOpen()
    expect(await page.locator('body').innerText()).toContain('Testwell')
  })

  test('has its PIN changed, and opens by that one only', async () => {
    await toSettings()
    await page.getByLabel('Present PIN').fill(SECOND)
    await page.getByLabel('New PIN').fill(PIN)
    await press('Change the PIN')
    await page.getByText('The PIN is changed.').waitFor({ timeout: 30_000 })
    await press('Lock now')
    await isLocked()
    await type(SECOND)
    await page.getByText('This PIN is not right.').waitFor({ timeout: 30_000 })
    await type(PIN)
    await isOpen()
  })

  test('has its PIN turned off: the records are in plain again, and it opens without one', async () => {
    await toSettings()
    await press('Turn the PIN off …')
    await page.locator('form.stopBox').getByLabel('Present PIN').fill(PIN)
    await page.getByLabel('That is understood, and the site wants it').check()
    await look('turn-off')
    await press('Turn the PIN off')
    await page.getByText('The PIN is turned off.').waitFor({ timeout: 60_000 })
    expect(await secretsStored()).toBe(true)
    await look('turned-off')
    await page.reload()
    await isOpen()
    expect(await page.locator('body').innerText()).toContain('Testwell')
  })

  test('nothing broke the content policy, failed, or left the machine', () => {
    expect(faults).toEqual([])
  })
})
