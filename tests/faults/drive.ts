import type { Locator, Page } from 'playwright-core'

/** The step on the draw screen, as a person reads it. */
export interface Shown {
  readonly title: string
  /** Words of the main choice, or of the first where a step has several. */
  readonly phrase: string
  readonly key: string
  /** Changes whenever the screen has moved on. */
  readonly where: string
  readonly closed: boolean
}

/** The step after the needle is shown. */
export const GOES_ON = /^look for blood in the tubing/i

/** Two clicks in one moment, before the page can draw anything in between; in a draw once presses no longer wait. */
export async function clickTwice(control: Locator): Promise<void> {
  const page = control.page()
  if ((await page.locator('.draw').count()) > 0) {
    await page.locator('.draw:not([data-held])').waitFor()
  }
  await control.evaluate((button) => {
    ;(button as HTMLElement).click()
    ;(button as HTMLElement).click()
  })
}

/** What the draw screen shows now; `undefined` where it is not shown. */
export function shownOn(page: Page): Promise<Shown | undefined> {
  return page.evaluate(() => {
    const draw = document.querySelector('.draw')
    if (!draw) return undefined
    const text = (from: ParentNode | null, selector: string): string =>
      from?.querySelector(selector)?.textContent?.trim() ?? ''
    const choice =
      draw.querySelector('.answers .choice.main') ?? draw.querySelector('[data-place="answer"]')
    const phrase = text(choice, '.phrase').replace(/[“”✓]/g, '').trim()
    const title = draw.getAttribute('data-step') ?? ''
    const number = text(draw, '.where')
    const panels = [...draw.querySelectorAll('.say, .rackStrip')].map((each) => each.textContent)
    return {
      title,
      phrase,
      key: text(choice, 'kbd .visuallyHidden').replace('key ', '') || 'ArrowRight',
      where: [number, title, phrase, ...panels].join(' / '),
      closed: draw.querySelector('.closed') !== null,
    }
  })
}

/** Waits until the draw screen shows what is wanted; `undefined` when it does not in time. */
export async function untilShown(
  page: Page,
  fits: (shown: Shown) => boolean,
  patience_ms = 10_000,
): Promise<Shown | undefined> {
  const end_ms = Date.now() + patience_ms
  for (;;) {
    const shown = await shownOn(page).catch(() => undefined)
    if (shown && fits(shown)) return shown
    if (Date.now() > end_ms) return undefined
    await page.waitForTimeout(30)
  }
}

/** Waits for a sentence on the screen that fits; tells how long after `since_ms` it could be read. */
export async function see(
  page: Page,
  pattern: RegExp,
  since_ms = Date.now(),
  patience_ms = 8000,
): Promise<{ readonly text: string | null; readonly ms: number | null }> {
  const end_ms = since_ms + patience_ms
  for (;;) {
    // A page that dies or begins anew has no text for a moment.
    const text = await page.evaluate(() => document.body.innerText).catch(() => '')
    const line = text.split('\n').find((each) => pattern.test(each))
    if (line !== undefined) return { text: line.trim(), ms: Date.now() - since_ms }
    if (Date.now() > end_ms) return { text: null, ms: null }
    await new Promise((resolve) => setTimeout(resolve, 40))
  }
}

export const clickOn = (page: Page, name: string | RegExp): Promise<void> =>
  page.getByRole('button', { name }).first().click()
