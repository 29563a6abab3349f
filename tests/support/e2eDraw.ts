import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import type { DrawEvent } from '../../src/core/protocol/events.ts'
import { HANDLED } from '../../src/core/protocol/handled.ts'
import { readLog, stored_n } from './e2eLog.ts'
import { chimesOf } from './e2eSounds.ts'

/** What the draw screen asks for at this moment, as a person reads it. */
export interface OnScreen {
  /** The step, as the screen marks it. */
  readonly step: string
  readonly instruction: string
  /** The words of the main choice, or of the first where the step has several. */
  readonly phrase: string
  /** The key that stands for it. */
  readonly key: string
}

/** So long a part of the screen may be missing while the next step is drawn. */
const LOOK_ms = 5000

/** Opens the invented demonstration with the pointer, as far as the first step of the draw. */
export async function startDemo(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Try the invented demo' }).click()
  await page.getByRole('button', { name: 'Plan the tubes' }).click()
  await page.getByRole('button', { name: 'Start the draw' }).click()
  await page.locator('.draw #step-instruction').waitFor()
}

/** Presses Tab until the control with that name has the focus, then Enter. */
export async function tabTo(page: Page, name: string): Promise<void> {
  await page.locator('h1').first().waitFor()
  for (let presses = 0; presses < 80; presses++) {
    await page.keyboard.press('Tab')
    const focused = await page.evaluate(() => {
      // With nothing focused it is the page itself, which holds every word.
      const control = document.activeElement?.closest('button, a[href], input, select, summary')
      return control?.getAttribute('aria-label') ?? control?.textContent ?? ''
    })
    if (focused.includes(name)) {
      await page.keyboard.press('Enter')
      return
    }
  }
  throw new Error(`The Tab key does not lead to "${name}".`)
}

/** What is on the draw screen, or `undefined` once the draw is closed. */
export async function onScreen(page: Page): Promise<OnScreen | undefined> {
  try {
    return await readScreen(page)
  } catch (error) {
    // The draw may have closed while it was read.
    if ((await page.locator('.draw .closed').count()) > 0) return undefined
    throw error
  }
}

async function readScreen(page: Page): Promise<OnScreen | undefined> {
  await page.locator('.draw .closed, .draw #step-instruction').first().waitFor()
  if ((await page.locator('.draw .closed').count()) > 0) return undefined
  const main = page.locator('.draw .answers .choice.main')
  const choice =
    (await main.count()) > 0
      ? main
      : page.locator('.draw [data-place="answer"], .draw .sixPlaces [data-place]').first()
  const text = async (selector: string): Promise<string> =>
    (await page.locator(selector).first().textContent({ timeout: LOOK_ms }))?.trim() ?? ''
  const phrase = (await choice.locator('.phrase').first().textContent({ timeout: LOOK_ms })) ?? ''
  const [key = ''] = await choice.locator('kbd .visuallyHidden').allTextContents()
  return {
    step: (await page.locator('.draw').getAttribute('data-step')) ?? '',
    instruction: await text('.draw #step-instruction'),
    phrase: phrase.replace(/[“”✓]/g, '').trim(),
    // An answer has no key of its own: the arrow goes to the first.
    key: key === '' ? 'ArrowRight' : key.replace(/^\w+ /, ''),
  }
}

/** Waits until the log has an entry that fits beyond the first `after`, and returns the whole log. */
export async function untilLogged(
  page: Page,
  after: number,
  fits: (entry: LogEntry) => boolean,
  patience_ms = 5000,
): Promise<readonly LogEntry[] | undefined> {
  const end = Date.now() + patience_ms
  let seen_n = -1
  while (Date.now() < end) {
    const now_n = await stored_n(page, 'entries')
    if (now_n !== seen_n) {
      seen_n = now_n
      const log = await readLog(page)
      if (log.slice(after).some(fits)) return log
    }
    await page.waitForTimeout(100)
  }
  return undefined
}

/** Waits, as a person does, for the chime that says it is time. */
async function waitForChime(page: Page, chime: string, since_ms: number, most_s: number) {
  await expect
    .poll(
      async () =>
        (await chimesOf(page)).some(({ name, at_ms }) => name === chime && at_ms >= since_ms),
      { timeout: most_s * 1000, interval: 100, message: `the chime ${chime}` },
    )
    .toBe(true)
}

/** Steps that are ready when a chime has been heard, and how long that may take, s. */
const CHIMED_STEPS: Readonly<Record<string, readonly [chime: string, most_s: number]>> = {
  'skin dry': ['timeUp', 40],
  'tube complete': ['tubeFull', 60],
  'bleeding stopped': ['timeUp', 130],
  'bandage on': ['timeUp', 20],
}

export interface DrawingManner {
  /** Confirms what is on the screen: speaks, or presses a key. */
  confirm(step: OnScreen): Promise<void>
  /** Waits for the chimes first, as trained; otherwise goes on at once. */
  readonly patient: boolean
  /** Looks at a step before it is confirmed; `'stop'` leaves the draw there. */
  readonly look?: (step: OnScreen) => Promise<'stop' | undefined | void>
}

/** When the step began that a chime ends. The band comes off while the tube fills. */
function stepSince_ms(log: readonly LogEntry[]): number {
  const last = log.findLast(({ source, event }) => source !== 'clock' && event.type !== 'bandOff')
  return last?.at.wall_ms ?? Date.now()
}

/** Goes through the draw by doing what the screen says, until the draw is closed or `look` stops it. */
export async function goThrough(page: Page, manner: DrawingManner): Promise<void> {
  // Whoever goes on with a draw may have heard the chime before.
  let since_ms = stepSince_ms(await readLog(page))
  for (let steps = 0; steps < 80; steps++) {
    const step = await onScreen(page)
    if (!step) return
    if ((await manner.look?.(step)) === 'stop') return
    const chimed = CHIMED_STEPS[step.phrase]
    if (manner.patient && chimed) await waitForChime(page, chimed[0], since_ms, chimed[1])
    const before = await readLog(page)
    // The band comes off while the tube fills: the chime for the tube may sound meanwhile and still counts.
    if (step.phrase !== 'band released') since_ms = Date.now()
    await manner.confirm(step)
    const moved = await untilLogged(page, before.length, ({ source }) => source !== 'clock')
    if (!moved) throw new Error(`"${step.phrase}" was confirmed and nothing was logged.`)
    await page.waitForTimeout(150)
  }
  throw new Error('The draw does not come to its end.')
}

/** What happened, without the app's own cues: the type, and the tube where there is one. */
export function storyOf(log: readonly LogEntry[]): readonly string[] {
  return log
    .filter(({ event }) => event.type !== 'cueGiven')
    .map(({ event }) =>
      'tubeId' in event && event.tubeId ? `${event.type} ${event.tubeId}` : event.type,
    )
}

/** The same for a draw in which all goes well, from the plan that it was opened with. */
export function storyOfPlan(log: readonly LogEntry[]): readonly string[] {
  const { plan } = firstOf(log, 'drawOpened').event
  const off = plan.band.offDuring ?? plan.tubes[0]?.id
  return [
    ...['drawOpened', 'identifierChecked', 'identifierChecked', 'consentGiven'],
    ...['preparationChecked', 'suppliesChecked', 'handsReady'],
    ...['bandOn', 'siteChosen', 'siteChosen', 'bandOff'],
    ...['skinCleaned', 'skinDry', 'bandOn', 'needleIn', 'flashSeen'],
    ...plan.tubes.flatMap(({ id, inversions }) => [
      `tubeOn ${id}`,
      ...(id === off ? ['bandOff'] : []),
      `tubeOff ${id}`,
      ...(inversions.min > 0 ? [`tubeMixed ${id}`] : []),
    ]),
    ...['lastTubeOff', 'needleOut', 'pressureOn', 'shieldClicked', 'sharpsDone'],
    ...plan.tubes.flatMap(({ id, role, handling }) =>
      role === 'discard'
        ? []
        : HANDLED.filter((how) => handling.includes(how)).map(() => `tubeHandled ${id}`),
    ),
    ...['bleedingStopped', 'bandageOn'],
    ...plan.tubes.filter(({ role }) => role !== 'discard').map(({ id }) => `labelReadBack ${id}`),
    ...['labelsDone', 'aftercareTold', 'specimensRacked', 'drawClosed'],
  ]
}

/** The first entry of a kind. */
export function firstOf<T extends DrawEvent['type']>(
  log: readonly LogEntry[],
  type: T,
): LogEntry<Extract<DrawEvent, { type: T }>> {
  const found = log.find(({ event }) => event.type === type)
  if (!found) throw new Error(`The log has no ${type}.`)
  return found as LogEntry<Extract<DrawEvent, { type: T }>>
}

/** The flags raised, in order. */
export const flagsOf = (log: readonly LogEntry[]): readonly string[] =>
  log.flatMap(({ event }) => (event.type === 'flagRaised' ? [event.flag] : []))

/** Flags aside, for comparing with a plan in which there are none. */
export const withoutFlags = (log: readonly LogEntry[]): readonly LogEntry[] =>
  log.filter(({ event }) => event.type !== 'flagRaised')
