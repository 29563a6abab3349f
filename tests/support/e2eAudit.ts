import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'
import type { AxeResults } from 'axe-core'

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/** Smallest side of anything to touch while drawing, CSS px. Our own limit, for gloves and haste. */
const TOUCH_px = 96

interface AxeWindow extends Window {
  axe?: { run(options: object): Promise<AxeResults> }
}

/** What axe finds wrong on the page as painted, contrast included, one line each. */
export async function axeFindings(page: Page): Promise<readonly string[]> {
  await page.evaluate(AXE)
  return page.evaluate(async () => {
    const { axe } = window as AxeWindow
    if (!axe) throw new Error('axe did not load.')
    const { violations } = await axe.run({ resultTypes: ['violations'] })
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ html, failureSummary }) =>
        `${id}: ${html.slice(0, 160)} ${failureSummary?.split('\n')[1]?.trim() ?? ''}`.trim(),
      ),
    )
  })
}

/** Everything on the draw screen that can be touched and is smaller than `TOUCH_px` either way. */
export async function smallTargets(page: Page): Promise<readonly string[]> {
  return page.evaluate((least) => {
    const selector = 'button, a[href], input, select, textarea, summary, [role="button"]'
    return [...document.querySelectorAll<HTMLElement>(`.draw :is(${selector})`)].flatMap(
      (element) => {
        if (element.closest('[inert]') || !element.checkVisibility()) return []
        // A box that belongs to a label is touched anywhere on the label.
        const { width, height } = (element.closest('label') ?? element).getBoundingClientRect()
        const small = Math.min(width, height) < least - 0.5
        const name = element.getAttribute('aria-label') ?? element.textContent ?? element.tagName
        return small ? [`${name.trim()}: ${Math.round(width)} x ${Math.round(height)}`] : []
      },
    )
  }, TOUCH_px)
}

/** Text on the draw screen that is larger than the clock that matters now. */
export async function largerThanClock(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const clock = document.querySelector('.draw .bigClock .time')
    if (!clock) return []
    const size = (element: Element): number => parseFloat(getComputedStyle(element).fontSize)
    return [...document.querySelectorAll('.draw *')]
      .filter((element) =>
        [...element.childNodes].some(
          ({ nodeType, textContent }) => nodeType === 3 && textContent?.trim(),
        ),
      )
      .filter((element) => element !== clock && size(element) >= size(clock))
      .map((element) => `${element.textContent?.trim() ?? ''}: ${size(element)} px`)
  })
}

/** How far the page is wider than the screen, CSS px. */
export const overflow_px = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
