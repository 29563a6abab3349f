import { afterAll, expect, inject, test } from 'vitest'
import { checkChain } from '../../src/core/log/checkChain.ts'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import {
  firstOf,
  flagsOf,
  goThrough,
  onScreen,
  startDemo,
  storyOf,
  tabTo,
} from '../support/e2eDraw.ts'
import { pressKey } from '../support/pressKey.ts'
import { readLog } from '../support/e2eLog.ts'
import { sha256 } from '../support/sampleLog.ts'
import type { Page } from 'playwright-core'

/** A clock on the screen may be read up to this long after the moment it shows. */
const LOOK_ms = 1500

let browser: OpenBrowser

afterAll(() => browser.close())

/** What the named clock shows, ms. */
async function shown_ms(page: Page, clock: string): Promise<number> {
  const text = await page.locator(`.draw [data-clock^="${clock}#"] .time`).innerText()
  const [minutes = NaN, seconds = NaN] = text.split(':').map(Number)
  return 1000 * (60 * minutes + seconds)
}

test('the browser is killed in the middle of the second tube; the draw goes on where it was', async () => {
  const baseUrl = inject('baseUrl')
  browser = await openBrowser()
  const before = browser.context.pages()[0] ?? (await browser.context.newPage())
  await before.goto(baseUrl)
  await startDemo(before)
  // Slow flow leaves the band on, so that its clock has to be right as well.
  let tubesOn = 0
  await goThrough(before, {
    patient: false,
    look: async ({ phrase }) => {
      if (phrase === 'next one on') tubesOn++
      return tubesOn === 2 && phrase !== 'next one on' ? 'stop' : undefined
    },
    confirm: async ({ phrase, key }) => {
      await pressKey(before, tubesOn > 0 && phrase === 'band released' ? '2' : key)
    },
  })
  await before.waitForTimeout(1200)
  const stepBefore = await onScreen(before)
  const logBefore = await readLog(before)
  expect(storyOf(logBefore).at(-1)).toBe('tubeOn t2')
  await browser.kill()

  const away_ms = 4000
  await new Promise((resolve) => setTimeout(resolve, away_ms))
  browser = await openBrowser({ profile: browser.profile })
  const page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(baseUrl)
  await tabTo(page, 'Go on with the draw of')
  await page.locator('.draw #step-instruction').waitFor()

  const stepAfter = await onScreen(page)
  // The warning has the place of the instruction, which stands small above it.
  expect({ ...stepAfter, instruction: '' }).toEqual({ ...stepBefore, instruction: '' })
  expect(await page.locator('.say .above').innerText()).toContain(stepBefore?.instruction)
  // The band of the needle, not that of the search for the vein.
  const bandOn = logBefore.findLast(({ event }) => event.type === 'bandOn')?.at.wall_ms ?? NaN
  const tubeOn = logBefore.findLast(({ event }) => event.type === 'tubeOn')?.at.wall_ms ?? NaN
  for (const [clock, from_ms] of [
    ['band', bandOn],
    ['fill', tubeOn],
  ] as const) {
    const shown = await shown_ms(page, clock)
    const passed = Date.now() - from_ms
    expect(passed, clock).toBeGreaterThan(away_ms)
    expect(shown, clock).toBeLessThanOrEqual(passed)
    expect(shown, clock).toBeGreaterThan(passed - LOOK_ms)
  }

  await goThrough(page, { patient: false, confirm: ({ key }) => pressKey(page, key) })
  const log = await readLog(page)
  // Nothing that was on the screen is lost or changed, and what was missed is on record.
  expect(log.slice(0, logBefore.length)).toEqual(logBefore)
  expect(checkChain(log, sha256)).toBeUndefined()
  const away = firstOf(log, 'awayNoticed').event
  expect(away.bandWasOn).toBe(true)
  expect(away.away_ms).toBeGreaterThan(away_ms)
  expect(new Set(log.map(({ at }) => at.boot)).size).toBe(2)
  expect(firstOf(log, 'drawClosed').event.outcome).toBe('complete')
  expect(storyOf(log).filter((type) => /^tube(On|Off|Mixed)/.test(type))).toEqual(
    ['tubeOn', 'tubeOff', 'tubeMixed']
      .flatMap((type) => `${type} t1`)
      .concat(['tubeOn', 'tubeOff', 'tubeMixed'].map((type) => `${type} t2`)),
  )
  expect(flagsOf(log)).not.toContain('clockUncertain')
}, 120_000)
