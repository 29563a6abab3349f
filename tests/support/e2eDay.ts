import type { Page } from 'playwright-core'
import type { DayEntry } from '../../src/core/day/dayEvents.ts'
import { say } from './e2eMic.ts'
import { PROMPTS, quiet } from './e2eSounds.ts'

/** An hour of today as a list bears it. */
export const hourNow = (ms = Date.now()): string =>
  new Date(ms).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })

/** Five invented patients: one stat, one timed for now, one child, two in turn. */
export const fiveOrders = (timed: string): string =>
  [
    'familyName,givenNames,birthDate,recordNumber,sex,orderNumber,provider,priority,tests,due,place',
    row('Early', 'Ada', '1970-02-03', 'E2E-1', 'female', 'stat', 'ntProBnp', '', 'room: 1'),
    row(
      'Timed',
      'Tim',
      '1962-04-05',
      'E2E-2',
      'male',
      'routine',
      'procalcitonin',
      timed,
      'room: 2',
    ),
    row('Plain', 'Ben', '1955-06-07', 'E2E-3', 'male', 'urgent', 'ntProBnp', '', 'room: 1'),
    row('Small', 'Cleo', childBorn(), 'E2E-4', 'female', 'routine', 'cbc', '', 'room: 2'),
    row('Stopped', 'Stan', '1988-10-11', 'E2E-5', 'male', 'routine', 'cbc;ntProBnp', '', 'ward: 3'),
  ].join('\n')

/** Some six years old. */
const childBorn = (): string => `${new Date().getFullYear() - 6}-01-15`

const row = (
  ...[family, given, born, number, sex, priority, tests, due, place]: string[]
): string =>
  [
    family,
    given,
    born,
    number,
    sex,
    `O-${number}`,
    'Dr. Invented',
    priority,
    tests,
    due,
    place,
  ].join(',')

/** What happened on the list and at the bench today, read from the page's database beside the app. */
export async function readDay(page: Page): Promise<readonly DayEntry[]> {
  const values = await page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('stillhand')
      opening.onsuccess = () => resolve(opening.result)
      opening.onerror = () => reject(new Error('The database cannot be opened.'))
    })
    const asked = db.transaction('days').objectStore('days').getAll()
    const read = await new Promise<unknown[]>((resolve, reject) => {
      asked.onsuccess = () => resolve(asked.result)
      asked.onerror = () => reject(new Error('The day cannot be read.'))
    })
    db.close()
    return read
  })
  return values as DayEntry[]
}

/** The row of a patient on the list. */
export const rowOf = (page: Page, name: string) => page.locator('.dayRow').filter({ hasText: name })

/** Adds a file of orders as a person does. */
export async function addOrders(page: Page, name: string, text: string): Promise<void> {
  const file = { name, mimeType: 'text/csv', buffer: Buffer.from(text) }
  await page.locator('.addOrders input[type=file]').first().setInputFiles(file)
}

/** Says that the next patient may come until somebody was called. */
export async function callByVoice(page: Page): Promise<void> {
  await page.locator('.betweenEars').getByText('Listening').waitFor({ timeout: 60_000 })
  const isCalled = async (): Promise<boolean> =>
    (await readDay(page)).some(({ event }) => event.type === 'orderCalled')
  for (let tries = 0; tries < 6 && !(await isCalled()); tries++) {
    await quiet(page, PROMPTS)
    await say(page, 'am_michael', 'next patient')
    await page.waitForTimeout(3000)
  }
  if (!(await isCalled())) throw new Error('"next patient" was said and nobody was called.')
}
