import type { Page } from 'playwright-core'

interface StandstillWindow extends Window {
  stillhandStandstill?: { longest_ms: number }
}

/** From now on watches how long the page stands still at a time: a timer that comes late says so. */
export async function watchStandstill(page: Page): Promise<void> {
  await page.evaluate(() => {
    const seen = { longest_ms: 0, last: performance.now() }
    ;(window as StandstillWindow).stillhandStandstill = seen
    setInterval(() => {
      const now = performance.now()
      seen.longest_ms = Math.max(seen.longest_ms, now - seen.last)
      seen.last = now
    }, 20)
  })
}

/** The longest standstill since then, ms. */
export const longestStandstill_ms = (page: Page): Promise<number> =>
  page.evaluate(() => (window as StandstillWindow).stillhandStandstill?.longest_ms ?? NaN)
