import { afterEach, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import { fillOfBar, sayInsideTalk, setHeldListening } from '../support/e2eHeld.ts'
import { onScreen, untilLogged } from '../support/e2eDraw.ts'
import { heardSince } from '../support/e2eHearings.ts'
import { readLog } from '../support/e2eLog.ts'
import { chimesOf, PROMPTS, quiet } from '../support/e2eSounds.ts'
import { openDemoDraw, type DemoDraw } from '../support/openDemoDraw.ts'

/** So long after the end of the talk nothing more comes of it. */
const COMES_OF_IT_ms = 4000
/** A person who is not heard says it again. */
const TRIES = 3
const KEY = 'PageDown'

let draw: DemoDraw
afterEach(() => draw.browser.close())

test('a phrase in the middle of talk acts while the key or the bar is held, and not without', async () => {
  draw = await openDemoDraw(inject('baseUrl'), {
    quick: true,
    prepare: (page) => setHeldListening(page, KEY),
  })
  const { page, faults } = draw
  const said = (await onScreen(page))?.phrase ?? ''

  await quiet(page, PROMPTS)
  const start_ms = Date.now()
  await sayInsideTalk(page, said)
  const without = await untilLogged(page, 0, (entry) => entry.heard === said, COMES_OF_IT_ms)
  expect(without && (await heardSince(page, start_ms))).toBeUndefined()

  const byKey = await untilHeard(page, said, async () => {
    await page.keyboard.down(KEY)
    await page.locator('.listening.isHeld').waitFor()
    await sayInsideTalk(page, said)
    await page.keyboard.up(KEY)
  })
  expect(byKey).toMatchObject({ source: 'voice', held: true })
  await page.locator('.listening:not(.isHeld)').waitFor()
  expect((await chimesOf(page)).map(({ name }) => name)).toContain('earsOpen')

  const next = (await onScreen(page))?.phrase ?? ''
  expect(next).not.toBe(said)
  const bar = page.locator('.earsBar')
  const byBar = await untilHeard(page, next, async () => {
    await bar.hover()
    await page.mouse.down()
    await page.locator('.earsBar.isOpen').waitFor()
    await sayInsideTalk(page, next)
    await page.mouse.up()
  })
  expect(byBar).toMatchObject({ source: 'voice', held: true })

  // A tap opens for three seconds; a page that is left hears no coming up.
  await bar.click()
  await page.locator('.earsBar.isOpen').waitFor()
  await page.locator('.earsBar.isShut').waitFor({ timeout: 4000 })
  await page.keyboard.down(KEY)
  await page.locator('.earsBar.isOpen').waitFor()
  await page.evaluate(() => window.dispatchEvent(new Event('blur')))
  await page.locator('.earsBar.isShut').waitFor({ timeout: 1000 })
  await page.keyboard.up(KEY)

  for (const [width, height] of [[1280, 800], [820, 1180], [390, 844]] as const) {
    await page.setViewportSize({ width, height })
    const fill = await fillOfBar(page)
    expect(fill.height, `${width} x ${height}`).toBeGreaterThanOrEqual(96)
    expect(fill.isWhole, `${width} x ${height}`).toBe(true)
  } // prettier-ignore
  expect(faults).toEqual([])
}, 240_000)

async function untilHeard(
  page: Page,
  phrase: string,
  speak: () => Promise<void>,
): Promise<LogEntry | undefined> {
  const start_ms = Date.now()
  const before = (await readLog(page)).length
  for (let tried = 0; tried < TRIES; tried++) {
    await quiet(page, PROMPTS)
    await speak()
    const log = await untilLogged(page, before, ({ heard }) => heard === phrase, COMES_OF_IT_ms)
    if (log) return log.slice(before).find(({ heard }) => heard === phrase)
  }
  const heard = await heardSince(page, start_ms)
  throw new Error(`"${phrase}" was not heard in ${TRIES} tries:\n${heard.join('\n')}`)
}
