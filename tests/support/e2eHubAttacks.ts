import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import screens from '../../src/data/en/screens.json' with { type: 'json' }
import lock from '../../src/data/en/lock.json' with { type: 'json' }
import { drawLogName } from '../../src/core/hub/logNames.ts'
import type { Hub } from '../../src/ports/hub.ts'
import { countAtHub } from './e2eAtHub.ts'
import type { Tablet } from './e2eClinic.ts'
import { firstOf, goThrough, type OnScreen } from './e2eDraw.ts'
import { allThere, byKeys, toClinic } from './e2eHubDay.ts'
import { readLog } from './e2eLog.ts'
import { planByHand } from './e2eOrder.ts'

/** What people do on a tablet of a clinic on which something is wrong. */

export const PATIENT = { timeout: 90_000, interval: 200 }
let patients = 0

/** Plans and opens a draw of an invented patient; gives its number. */
export async function openDraw(page: Page): Promise<string> {
  const n = (patients += 1)
  await planByHand(page, {
    fullName: `Attacked ${'ABCDEFGHIJKLMNOPQRSTUVWXYZ'[n % 26] ?? ''}${'x'.repeat(n / 26)}body`,
    birthDate: `${1940 + n}-02-03`,
    recordNumber: `ATTACK-${n}`,
    tests: ['ntProBnp'],
  })
  await page.getByRole('button', { name: 'Start the draw' }).click()
  await page.locator('.draw #step-instruction').waitFor()
  return firstOf(await readLog(page), 'drawOpened').event.drawId
}

/** Goes on with the draw that is open, to its end or until it is stopped. */
export const goOn = (
  page: Page,
  look?: (step: OnScreen) => Promise<'stop' | undefined | void>,
): Promise<void> =>
  goThrough(page, { patient: false, confirm: byKeys(page), ...(look && { look }) })

/** A whole draw and back to the first screen. */
export async function wholeDraw(page: Page): Promise<string> {
  const drawId = await openDraw(page)
  await goOn(page)
  await toStart(page)
  return drawId
}

export async function toStart(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Back to the start' }).first().click()
  await page.getByRole('button', { name: /^New draw/ }).waitFor()
}

/** Waits until the hub has exactly what the device's own log has. */
export async function sameAtHub(hub: Hub, { page }: Pick<Tablet, 'page'>, drawId: string) {
  await expect
    .poll(async () => {
      const log = await readLog(page, drawId)
      const { entries, ...count } = await countAtHub(hub, new Map([[drawId, log]]))
      return { ...count, isThere: entries > 0 }
    }, PATIENT)
    .toEqual({ lost: 0, doubled: 0, wrongOrder: 0, isThere: true })
}

/** So many entries of a draw stand at the hub. */
export const atHub_n = async (hub: Hub, drawId: string): Promise<number> =>
  (await hub.read({ log: drawLogName(drawId), kind: 'entry' }, 0)).length

/** All that a page shows, as a person reads it. */
export const wordsOn = (page: Page): Promise<string> => page.locator('body').innerText()

/** The same browser, one tab more. */
export async function secondTab({ browser }: Tablet, baseUrl: string): Promise<Page> {
  const page = await browser.context.newPage()
  await page.goto(baseUrl)
  await page.locator('h1').first().waitFor()
  return page
}

export async function startAnew(page: Page, baseUrl: string): Promise<void> {
  await page.goto(baseUrl)
  await allThere(page)
}

export async function toSettings(page: Page): Promise<void> {
  await page.locator('.places button').filter({ hasText: screens.home.settings }).first().click()
}

const press = (page: Page, name: string): Promise<void> =>
  page.getByRole('button', { name, exact: true }).first().click()

export async function setPin(page: Page, pin: string): Promise<void> {
  await toSettings(page)
  await page.getByLabel('PIN', { exact: true }).fill(pin)
  await page.getByLabel('The same PIN again').fill(pin)
  await press(page, 'Set the PIN')
  await page.locator('.recoveryKey').waitFor({ timeout: 90_000 })
  await page.getByLabel(lock.recovery.kept).check()
  await press(page, lock.recovery.done)
}

export async function unlock(page: Page, pin: string): Promise<void> {
  await page.getByRole('heading', { level: 1, name: 'Locked' }).waitFor(PATIENT)
  await page.getByLabel('PIN', { exact: true }).fill(pin)
  await press(page, 'Open')
  await page.getByRole('button', { name: /^New draw/ }).waitFor(PATIENT)
}

/** Waits until the screen of the clinic says that, the tablet being on its first screen. */
export async function clinicSays(page: Page, text: string): Promise<void> {
  await toClinic(page)
  await expect.poll(() => wordsOn(page), PATIENT).toContain(text)
}

interface Lot {
  readonly lot: string
  readonly count: number
}

/** What a device has kept of the stock: which draws are taken off, and how many of which lot are gone. */
export async function stockOf(page: Page, lots: readonly Lot[]) {
  const text = await page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('stillhand')
      opening.onsuccess = () => resolve(opening.result)
      opening.onerror = () => reject(new Error('The database cannot be opened.'))
    })
    const asked = db.transaction('settings').objectStore('settings').get('stock')
    const read = await new Promise<unknown>((resolve) => {
      asked.onsuccess = () => resolve(asked.result)
    })
    db.close()
    return String(read)
  })
  const kept = JSON.parse(text) as { lots: Lot[]; counted: { drawId: string }[] }
  const before = new Map(lots.map(({ lot, count }) => [lot, count]))
  return {
    counted: kept.counted.map(({ drawId }) => drawId).sort(),
    gone: kept.lots
      .map(({ lot, count }) => [lot, (before.get(lot) ?? 0) - count] as const)
      .filter(([, n]) => n !== 0),
  }
}
