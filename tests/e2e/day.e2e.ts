/** A whole day in a real browser with the real recognizer: the list, five patients, the bench, the courier, the figures. */
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import { checkChain } from '../../src/core/log/checkChain.ts'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import bench from '../../src/data/en/bench.json' with { type: 'json' }
import courier from '../../src/data/en/courier.json' with { type: 'json' }
import day from '../../src/data/en/day.json' with { type: 'json' }
import figures from '../../src/data/en/figures.json' with { type: 'json' }
import screens from '../../src/data/en/screens.json' with { type: 'json' }
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import { addOrders, callByVoice, fiveOrders, hourNow, readDay, rowOf } from '../support/e2eDay.ts'
import { firstOf, goThrough, onScreen, type OnScreen } from '../support/e2eDraw.ts'
import { heardSince, recordHearings } from '../support/e2eHearings.ts'
import { readLog } from '../support/e2eLog.ts'
import { fakeMicrophone, say } from '../support/e2eMic.ts'
import { sayWhoDraws } from '../support/e2eOrder.ts'
import { PROMPTS, quiet, recordSounds } from '../support/e2eSounds.ts'
import { watch } from '../support/e2eWatch.ts'
import { pressKey } from '../support/pressKey.ts'
import { useQuickLimits } from '../support/quickLimits.ts'
import { sha256 } from '../support/sampleLog.ts'
import { sayUntilHeard } from '../support/sayUntilHeard.ts'

let browser: OpenBrowser
let page: Page
const faults: string[][] = []
/** How well it hears is tried elsewhere; a day goes on when a phrase was heard late. */
const PATIENT = { tries: 6, within_ms: 5000 }
/** Draws in the order in which they were opened. */
const drawIds: string[] = []
/** What stood in the database before each kill: nothing of it may be missing later. */
const kept: { drawId: string; log: readonly LogEntry[] }[] = []

const click = (name: string | RegExp): Promise<void> =>
  page.getByRole('button', { name }).first().click()
const byKeys = ({ key }: OnScreen): Promise<void> => pressKey(page, key)
const byVoice = async ({ phrase }: OnScreen): Promise<void> => {
  await sayUntilHeard(page, phrase, () => say(page, 'am_michael', phrase), PATIENT)
}

/** Opens the browser, again on the same profile after a kill. */
async function open(profile?: string): Promise<void> {
  browser = await openBrowser({ width: 1180, height: 820, ...(profile && { profile }) })
  await fakeMicrophone(browser.context)
  await recordSounds(browser.context)
  await recordHearings(browser.context)
  faults.push((await watch(browser.context, inject('baseUrl'))) as string[])
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(inject('baseUrl'))
  await page.locator('h1').first().waitFor()
}

async function killAndOpenAgain(): Promise<void> {
  for (const drawId of drawIds) kept.push({ drawId, log: await readLog(page, drawId) })
  const { profile } = browser
  await browser.kill()
  await open(profile)
}

/** From the list to the first step of the draw. */
async function begin(name: string, change?: () => Promise<void>): Promise<void> {
  await rowOf(page, name)
    .getByRole('button', { name: /^Begin/ })
    .click()
  await page.locator('.dayList').waitFor({ state: 'detached' })
  await change?.()
  await sayWhoDraws(page)
  await click('Start the draw')
  await page.locator('.draw #step-instruction').waitFor()
  drawIds.push(firstOf(await readLog(page), 'drawOpened').event.drawId)
}

async function home(): Promise<void> {
  await click('Back to the start')
  await page.locator('.dayList').waitFor()
}

const listening = (): Promise<void> =>
  page.locator('.listening.listening').getByText('Listening').waitFor({ timeout: 60_000 })

beforeAll(async () => {
  await open()
  await useQuickLimits(page)
}, 120_000)
afterAll(() => browser.close())

describe('a day of five patients', () => {
  test('orders come in from a file, what must happen first stands above', async () => {
    await addOrders(page, 'orders.csv', fiveOrders(hourNow()))
    await rowOf(page, 'Stan Stopped').waitFor()
    const order = await page.locator('.dayRow').allInnerTexts()
    expect(order.map((text) => /Ada|Tim|Ben|Cleo|Stan/.exec(text)?.[0])).toEqual([
      'Ada',
      'Tim',
      'Ben',
      'Cleo',
      'Stan',
    ])
  })

  test('the next patient is called by voice, and drawn by keys; so is another', async () => {
    await page.locator('.betweenEars').getByRole('checkbox').check()
    await callByVoice(page)
    expect((await readDay(page)).at(-1)).toMatchObject({
      event: { type: 'orderCalled' },
      source: 'voice',
    })
    for (const name of ['Ada Early', 'Ben Plain']) {
      await begin(name)
      await goThrough(page, { patient: false, confirm: byKeys })
      await home()
    }
  }, 240_000)

  test('tubes of both go into the spin by voice, the first run', async () => {
    await openBench()
    await sayAtBench('tubes in the spin', 'spinStarted')
    await untilRows('spinning', 2)
    await home()
  }, 60_000)

  test('the timed draw is drawn by voice; the browser is killed while a tube fills, and it goes on', async () => {
    await begin('Tim Timed')
    await listening()
    await goThrough(page, {
      patient: true,
      look: async ({ phrase }) => (phrase === 'tube complete' ? 'stop' : undefined),
      confirm: byVoice,
    })
    const before = await onScreen(page)
    await killAndOpenAgain()
    await page
      .locator('.draw #step-instruction')
      .or(page.getByRole('button', { name: /^Go on with the draw/ }))
      .first()
      .waitFor()
    if ((await page.locator('.draw').count()) === 0) await click(/^Go on with the draw/)
    const again = await onScreen(page)
    expect(again?.step).toBe(before?.step)
    await listening()
    // Its chime may have passed while nobody was there.
    if (again) await byVoice(again)
    await goThrough(page, { patient: true, confirm: byVoice })
    await home()
  }, 420_000)

  test('the child is drawn by voice', async () => {
    await begin('Cleo Small', weigh)
    await listening()
    await goThrough(page, { patient: true, confirm: byVoice })
    await home()
  }, 420_000)

  test('one draw is stopped by voice, and what is missing is listed again and drawn', async () => {
    await begin('Stan Stopped')
    await listening()
    await goThrough(page, {
      patient: true,
      look: async ({ phrase }) => (phrase === 'tube complete' ? 'stop' : undefined),
      confirm: byVoice,
    })
    await byVoice({ step: '', instruction: '', phrase: 'stop everything', key: '' })
    await goThrough(page, { patient: true, confirm: byVoice })
    await home()
    await page.getByText(new RegExp(`^${day.done}`)).click()
    await rowOf(page, 'Stan Stopped').getByRole('button', { name: day.listRest }).click()
    await rowOf(page, 'Stan Stopped')
      .getByRole('button', { name: /^Begin/ })
      .waitFor()
    await begin('Stan Stopped')
    await goThrough(page, { patient: false, confirm: byKeys })
    await home()
  }, 600_000)

  test('a second run turns, a kill in it loses nothing, and all are taken out and stored', async () => {
    await openBench()
    const more = page.getByRole('button', { name: /^In the spin \(\d\)/ }).first()
    const n = 2 + Number(/\d/.exec(await more.innerText())?.[0])
    expect(n).toBeGreaterThan(2)
    await more.click()
    await untilRows('spinning', n)
    await killAndOpenAgain()
    await openBench()
    await untilRows('spinning', n)
    expect(await actsOf('spinStarted')).toHaveLength(2)
    await doWithAll('spinning', /^Spin done/)
    await untilRows('spinning', 0)
    // One button a place: the fridge and the room.
    for (let places = 0; places < 4 && (await stepRows('store').count()) > 0; places++) {
      const before = await stepRows('store').count()
      await doWithAll('store', /^Stored/)
      await expect.poll(() => stepRows('store').count(), { timeout: 20_000 }).toBeLessThan(before)
      await page.waitForTimeout(2000)
    }
    expect(await stepRows('store').count()).toBe(0)
  }, 120_000)

  test('all goes with a courier but one tube, and the manifest prints', async () => {
    await home()
    await goTo(screens.home.courier)
    const card = page.locator('.packCard').first()
    await card.getByRole('button', { name: courier.countAll }).click()
    const [missing = ''] = (await card.locator('tbody th').first().innerText()).trim().split(' ')
    expect(missing).toMatch(/^\w{10,}$/)
    await card.getByRole('checkbox').first().uncheck()
    await card.getByRole('textbox', { name: courier.handOver.courier }).fill('Invented Courier')
    expect(await card.getByRole('button', { name: courier.handOver.complete }).count()).toBe(0)
    await card.getByRole('textbox', { name: courier.handOver.saidBy }).fill('Robin Sample')
    await card.getByRole('button', { name: courier.handOver.short }).click()
    const sent = page.locator('.sentCard').first()
    await sent.waitFor()
    expect(await sent.innerText()).toContain(missing)
    await sent.getByRole('button', { name: courier.manifest.print }).click()
    const paper = page.locator('.manifestPaper')
    await page.emulateMedia({ media: 'print' })
    await paper.waitFor()
    const text = await paper.innerText()
    expect(text).toContain('Invented Courier')
    expect(text).toContain(missing)
    expect(text).toMatch(/Plain, Ben/)
    // Hers is the tube that is missing.
    expect(text).not.toMatch(/Early, Ada/)
    await page.emulateMedia({ media: 'screen' })
  }, 60_000)

  test('the figures of the day are drawn', async () => {
    await home()
    await goTo(screens.home.figures)
    await page.getByText(/^6 closed draws/).waitFor({ timeout: 30_000 })
    expect(await page.locator('.figureCard').count()).toBeGreaterThan(8)
    expect(await page.locator('.chartPicture svg').count()).toBeGreaterThan(0)
    await page.getByRole('button', { name: figures.dayPicture.show, exact: true }).click()
    await page.locator('.figureCard.isWide svg').first().waitFor()
  }, 60_000)

  test('nothing is lost: every record is whole, and what stood before each kill stands', async () => {
    for (const drawId of drawIds) {
      const log = await readLog(page, drawId)
      expect(checkChain(log, sha256)).toBeUndefined()
      expect(log.some(({ event }) => event.type === 'drawClosed')).toBe(true)
    }
    for (const { drawId, log } of kept) {
      expect((await readLog(page, drawId)).slice(0, log.length)).toEqual(log)
    }
    expect(faults.flat()).toEqual([])
  })
})

const stepRows = (step: keyof typeof bench.steps) =>
  page.getByRole('region', { name: bench.steps[step].title, exact: true }).locator('.benchRow')

const goTo = (name: string): Promise<void> =>
  page.locator('.places button').filter({ hasText: name }).first().click()

const openBench = async (): Promise<void> => {
  await goTo(screens.home.bench)
  await page.locator('.benchRow').first().waitFor()
}

const actsOf = async (type: string) =>
  (await readDay(page)).filter(
    ({ event }) => event.type === 'benchActed' && event.act.type === type,
  )

/** Acts are charted in one draw after the other. */
const untilRows = (step: keyof typeof bench.steps, n: number): Promise<void> =>
  expect.poll(() => stepRows(step).count(), { timeout: 20_000 }).toBe(n)

/** Says it until it stands in the day's log. */
async function sayAtBench(phrase: string, type: string): Promise<void> {
  await page.locator('.betweenEars').getByText('Listening').waitFor({ timeout: 60_000 })
  const since_ms = Date.now()
  for (let tries = 0; tries < PATIENT.tries && (await actsOf(type)).length === 0; tries++) {
    await quiet(page, PROMPTS)
    await say(page, 'am_michael', phrase)
    await page.waitForTimeout(2500)
  }
  const heard = (await heardSince(page, since_ms)).join('\n')
  const screen = await page.locator('main').innerText()
  expect(await actsOf(type), `${heard}\n${screen}`).toHaveLength(1)
}

/** Ticks every tube of a step of the bench and says what was done with them. */
async function doWithAll(step: keyof typeof bench.steps, name: RegExp): Promise<void> {
  const boxes = stepRows(step).getByRole('checkbox')
  for (const box of await boxes.all()) await box.check()
  const region = page.getByRole('region', { name: bench.steps[step].title, exact: true })
  await region.getByRole('button', { name }).first().click()
}

/** The plan of a child is stopped until the weight is known: back to the order it goes. */
async function weigh(): Promise<void> {
  await page.getByRole('heading', { level: 1 }).waitFor()
  if ((await page.getByLabel(/^Weight/).count()) === 0) await click(/^Back to the order/)
  await page.getByLabel(/^Weight/).fill('21')
  await click('Plan the tubes')
}
