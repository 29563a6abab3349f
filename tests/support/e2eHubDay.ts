import type { Page } from 'playwright-core'
import clinic from '../../src/data/en/clinic.json' with { type: 'json' }
import screens from '../../src/data/en/screens.json' with { type: 'json' }
import { CLOSED_CLINIC } from './closedHub.ts'
import { stateOf, type Tablet } from './e2eClinic.ts'
import { rowOf } from './e2eDay.ts'
import { firstOf, type OnScreen } from './e2eDraw.ts'
import { readLog } from './e2eLog.ts'
import { say } from './e2eMic.ts'
import { sayWhoDraws } from './e2eOrder.ts'
import { pressKey } from './pressKey.ts'
import { sayUntilHeard } from './sayUntilHeard.ts'

/** What people do at the chairs and the bench of a clinic. */

export const SOON = { timeout: 30_000, interval: 200 }
const PATIENT = { tries: 6, within_ms: 5000 }

export const click = (page: Page, name: string | RegExp): Promise<void> =>
  page.getByRole('button', { name }).first().click()
export const byKeys =
  (page: Page) =>
  ({ key }: OnScreen): Promise<void> =>
    pressKey(page, key)
export const byVoice =
  (page: Page) =>
  async ({ phrase }: OnScreen): Promise<void> => {
    await sayUntilHeard(page, phrase, () => say(page, 'am_michael', phrase), PATIENT)
  }
export const line = (page: Page, text: string | RegExp): Promise<void> =>
  page.getByText(text).first().waitFor(SOON)
export const allThere = (page: Page): Promise<void> => line(page, clinic.link.connected)

export const home = async ({ page }: Tablet): Promise<void> => {
  await click(page, 'Back to the start')
  await page.locator('.dayList').waitFor()
}

/** From the list to the first step of the draw; gives its number. */
export async function begin({ page }: Tablet, name: string): Promise<string> {
  await toPlan(page, name)
  await click(page, 'Start the draw')
  await page.locator('.draw #step-instruction').waitFor()
  return firstOf(await readLog(page), 'drawOpened').event.drawId
}
export async function toPlan(page: Page, name: string): Promise<void> {
  await rowOf(page, name)
    .getByRole('button', { name: /^Begin/ })
    .click()
  await page.locator('.dayList').waitFor({ state: 'detached' })
  await sayWhoDraws(page)
  await page.getByRole('button', { name: 'Start the draw' }).waitFor()
}

export const HOUR_ms = 3_600_000
export const DAY_ms = 24 * HOUR_ms
export const THREE = ['Emil Fifth', 'Fay Sixth', 'Gus Seventh'] as const
export const MORE = ['Dora Fourth', ...THREE, 'Hugo Eighth', 'Ines Ninth'] as const

export const stopAt =
  (at: string) =>
  async ({ step }: OnScreen): Promise<'stop' | undefined> =>
    step === at ? 'stop' : undefined
/** Draws of others that a tablet knows to be closed. */
export const closedElsewhere = async ({ page }: Tablet): Promise<readonly string[]> =>
  ((await stateOf(page, 'others')) as { drawId: string; closed: boolean }[])
    .filter(({ closed }) => closed)
    .map(({ drawId }) => drawId)
/** Whether the list has the order of that patient as done. */
export const isDoneOn = async ({ page }: Tablet, name: string): Promise<boolean> =>
  JSON.stringify(((await stateOf(page, 'day')) as { done: unknown }).done).includes(
    name.split(' ')[1] ?? '',
  )

export async function toClinic(page: Page): Promise<void> {
  await page.locator('.places button').filter({ hasText: screens.home.settings }).first().click()
  const section = page.getByRole('group', { name: clinic.setup.title, exact: true })
  await section.getByRole('button', { name: clinic.setup.open, exact: true }).click(SOON)
}

export const pageOf = async ({ page }: Tablet): Promise<string> =>
  [
    await page.locator('body').innerText(),
    JSON.stringify(await stateOf(page, 'clinic')),
    JSON.stringify(await stateOf(page, 'others')),
    JSON.stringify(await stateOf(page, 'screen')),
  ].join('\n---\n')

/** @param born_year of the first of them; nobody is to be taken for another */
export const ordersOf = (names: readonly string[], born_year: number): string =>
  [
    'familyName,givenNames,birthDate,recordNumber,sex,orderNumber,provider,priority,tests',
    ...names.map((name, i) => {
      const [given, family] = name.split(' ')
      return `${family},${given},${born_year + i}-02-03,E2E-${family},female,O-${family},Dr. Invented,routine,ntProBnp`
    }),
  ].join('\n')

/** Makes a tablet the first desk, by the clinic's screen; leaves it there. */
export async function found({ page, name }: Tablet, deskFile: string): Promise<void> {
  const { found: texts, join } = clinic.setup
  await toClinic(page)
  await page.locator('.foundClinic summary').click()
  const form = page.locator('.foundClinic form')
  await form.getByLabel(join.name).fill(name)
  const file = { name: 'desk.json', mimeType: 'application/json', buffer: Buffer.from(deskFile) }
  await form.locator('input[type=file]').setInputFiles(file)
  const loaded = page.waitForEvent('load', SOON)
  await click(page, texts.submit.replace('{clinic}', CLOSED_CLINIC))
  await loaded
  await allThere(page)
  await toClinic(page)
}

/** Lets a tablet in by the code that a desk on its clinic's screen shows. */
export async function letIn({ page: desk }: Tablet, { page, name }: Tablet): Promise<void> {
  const { invite, join } = clinic.setup
  await desk.getByRole('button', { name: new RegExp(`^(${invite.show}|${invite.again})$`) }).click()
  const code = await desk.locator('#joinCodeValue').innerText()
  await toClinic(page)
  await page.getByLabel(join.name).first().fill(name)
  await page.getByLabel(join.code).fill(code)
  const inside = page.waitForEvent('load', { timeout: 60_000 })
  await page.getByRole('button', { name: join.submit, exact: true }).click()
  await line(desk, invite.asks.replace('{name}', name))
  await desk.getByRole('button', { name: invite.admit, exact: true }).click(SOON)
  await inside
  await allThere(page)
}

/** Takes a draw over that is looked on at, and waits until it runs there. */
export async function takeOver({ page }: Tablet): Promise<void> {
  const button = page.getByRole('button', { name: clinic.elsewhere.takeOver })
  await button.click(SOON)
  const yes = page.getByRole('button', { name: clinic.elsewhere.ask.yes })
  await yes.click(SOON)
  await button
    .or(yes)
    .waitFor({ state: 'detached', ...SOON })
    .catch(async () => {
      throw new Error(await page.locator('body').innerText())
    })
}
