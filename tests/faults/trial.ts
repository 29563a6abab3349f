import { readFileSync } from 'node:fs'
import type { BrowserContext, Page } from 'playwright-core'
import { checkChain } from '../../src/core/log/checkChain.ts'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import { readLog } from '../support/e2eLog.ts'
import { planByHand } from '../support/e2eOrder.ts'
import { sha256 } from '../support/sampleLog.ts'
import { clickOn, see, shownOn, untilShown, type Shown } from './drive.ts'
import { pressKey } from '../support/pressKey.ts'
import type { BandAlarm, Lost, Outcome } from './outcome.ts'
import { ANEW_ms, ON_TIME_ms } from './outcome.ts'
import type { FaultTools, FaultWindow } from './inPage.ts'
import { BAND_LIMIT_ms } from './site.ts'

/** One draw under a fault: what was confirmed of it, and when its band went on. */
export interface Trial {
  readonly context: BrowserContext
  readonly baseUrl: string
  page: Page
  confirmed: number
  bandOn_ms?: number
  /** When its first page was asked for, Unix ms. */
  readonly opened_ms: number
  /** What makes the fault from outside, for as long as it lasts. */
  helper?: { close(): Promise<void> }
}

const ANNA = {
  ...{ fullName: 'Anna First', birthDate: '1980-05-31', recordNumber: 'MRN-A' },
  tests: ['CBC'],
}

/** Begins the draw of the invented demonstration, or of a patient typed in by hand, as far as its first step. */
export async function startDraw(trial: Trial, byHand = false): Promise<void> {
  if (byHand) await planByHand(trial.page, ANNA)
  else {
    await clickOn(trial.page, 'Try the invented demo')
    await clickOn(trial.page, 'Plan the tubes')
  }
  await clickOn(trial.page, 'Start the draw')
  await trial.page.locator('.draw #step-instruction').waitFor()
}

/** Does what the screen asks for, and counts it once the screen has moved on; false when it does not. */
export async function confirm(trial: Trial, key?: string): Promise<boolean> {
  const { page } = trial
  const before = await shownOn(page)
  if (!before || before.closed) return false
  await page.locator('.draw:not([data-held])').waitFor()
  const pressed_ms = Date.now()
  await pressKey(page, key ?? before.key, { delay: 60 })
  const after = await untilShown(page, (now) => now.closed || now.where !== before.where, 5000)
  if (!after) return false
  trial.confirmed++
  if (before.phrase === 'band on') trial.bandOn_ms = pressed_ms
  if (before.phrase === 'band released') delete trial.bandOn_ms
  return true
}

/** Goes on until the screen asks for that phrase, or until the draw is closed. */
export async function drawTo(trial: Trial, phrase: string): Promise<Shown> {
  for (let steps = 0; steps < 60; steps++) {
    const shown = await untilShown(trial.page, ({ key, closed }) => closed || key !== '')
    if (!shown) throw new Error('The draw screen is not shown.')
    if (shown.closed || shown.phrase === phrase) {
      if (!shown.closed || phrase === 'closed') return shown
      throw new Error(`The draw was closed before "${phrase}".`)
    }
    if (!(await confirm(trial))) throw new Error(`"${shown.phrase}" does not move the screen.`)
  }
  throw new Error(`The draw does not come to "${phrase}".`)
}

/** From the first screen to the step after the band went on. */
export async function bandOn(trial: Trial, byHand = false): Promise<void> {
  await startDraw(trial, byHand)
  await drawTo(trial, 'needle in')
}

/** Goes on with the draw that the first screen offers. */
export async function goOn(trial: Trial, page = trial.page): Promise<void> {
  await clickOn(page, /^Go on with the draw of/)
  await page.locator('.draw').waitFor()
}

export const inTools = <T>(page: Page, work: (tools: FaultTools) => T): Promise<T> =>
  page.evaluate(`(${String(work)})(globalThis.stillhandFaults)`)

/** A condition that becomes true, asked again and again. */
export async function until(holds: () => Promise<boolean>, patience_ms = 10_000): Promise<boolean> {
  const end_ms = Date.now() + patience_ms
  while (!(await holds().catch(() => false))) {
    if (Date.now() > end_ms) return false
    await new Promise((resolve) => setTimeout(resolve, 60))
  }
  return true
}

/** Commands of people in a log: entries that one command made bear one time. */
export function commandsIn(entries: readonly LogEntry[]): number {
  const people = entries.filter(({ source }) => source !== 'clock' && source !== 'app')
  return new Set(people.map(({ at }) => `${at.boot} ${at.mono_ms}`)).size
}

/** Counts what is stored, once the app has had time to write it. */
export async function lostFromStore(trial: Trial, page = trial.page): Promise<Lost> {
  let entries: readonly LogEntry[] = []
  await until(async () => {
    entries = await readLog(page)
    return commandsIn(entries) >= trial.confirmed
  }, 15_000)
  return lostFrom(trial, entries, 'store')
}

/** Counts what a file holds that was saved from the page. */
export async function lostFromFile(trial: Trial, button = 'Save as file'): Promise<Lost> {
  const saving = trial.page.waitForEvent('download')
  await clickOn(trial.page, button)
  const text = readFileSync(await (await saving).path(), 'utf8')
  const { log } = JSON.parse(text) as { log: { entries: readonly LogEntry[] } }
  return lostFrom(trial, log.entries, 'saved file')
}

export function lostFrom(trial: Trial, entries: readonly LogEntry[], countedIn: string): Lost {
  const broken = checkChain(entries, sha256)
  const kept = commandsIn(entries)
  return {
    confirmed: trial.confirmed,
    kept,
    countedIn: broken ? `${countedIn}, whose chain is broken` : countedIn,
  }
}

/** What the band's clock says once its limit is past. */
const OVER = /\bover by\b/

export interface AlarmDue {
  /** When it was due, where that is not the band's limit; Unix ms. */
  readonly due_ms?: number
  /** When a page could play again, where it could not meanwhile. */
  readonly ableFrom_ms?: number
  /** From what the lateness is counted, in words. */
  readonly from?: string
  readonly page?: Page
}

/** Waits for the alarm of the band. */
export async function alarmOf(trial: Trial, due: AlarmDue = {}): Promise<BandAlarm> {
  const page = due.page ?? trial.page
  if (trial.bandOn_ms === undefined) return 'not running'
  const limit_ms = due.due_ms ?? trial.bandOn_ms + BAND_LIMIT_ms
  const expected_ms = Math.max(limit_ms, due.ableFrom_ms ?? 0)
  const from = due.from ?? 'the limit'
  const end_ms = expected_ms + 8000
  for (;;) {
    const played = await page
      .evaluate(() => (window as FaultWindow).stillhandFaults?.chimes ?? [])
      .catch(() => [])
    // A page that begins anew may have sounded it before it is known here that it could.
    const first = played.find(({ name, real_ms }) => name === 'timeUp' && real_ms >= limit_ms - 300)
    if (first) {
      const lateness_ms = Math.max(0, Math.round(first.real_ms - expected_ms))
      const allowed_ms =
        expected_ms > limit_ms || due.due_ms === due.ableFrom_ms ? ANEW_ms : ON_TIME_ms
      return { heard: lateness_ms <= allowed_ms ? 'on time' : 'late', lateness_ms, from }
    }
    if (Date.now() > end_ms) return { heard: 'never', lateness_ms: null, from }
    await new Promise((resolve) => setTimeout(resolve, 80))
  }
}

/** What came of a fault that was seen: whether the band's alarm sounds, and then what is stored. */
export async function endOf(
  trial: Trial,
  seen: Outcome['seen'],
  due: AlarmDue = {},
): Promise<Outcome> {
  const band = await alarmOf(trial, due)
  return { seen, band, lost: await lostFromStore(trial) }
}

/** Moves what the page reads of the wall clock and of its own clock. */
export const moveClocks = (trial: Trial, wall_ms: number, mono_ms: number): Promise<void> =>
  trial.page.evaluate(
    ([wall = 0, mono = 0]) => {
      ;(window as FaultWindow).stillhandFaults?.moveClocks(wall, mono)
    },
    [wall_ms, mono_ms],
  )

/** Where no sound can be played, the alarm is the clock on the screen that says that the time is over. */
export async function alarmOnScreen(trial: Trial): Promise<BandAlarm> {
  const due_ms = (trial.bandOn_ms ?? NaN) + BAND_LIMIT_ms
  const over = await see(trial.page, OVER, due_ms)
  const lateness_ms = over.ms
  const isOnTime = lateness_ms !== null && lateness_ms <= ON_TIME_ms
  const heard = lateness_ms === null ? 'never' : isOnTime ? 'on the screen, on time' : 'late'
  return { heard, lateness_ms, from: 'the limit' }
}
