import type { Page } from 'playwright-core'
import type { DrawSeen } from './eyes.ts'
import type { Novice } from './novice.ts'

/** Most presses of one draw. */
const MOST_n = 90
/** After a press a change is waited for so long, ms. */
const CHANGE_ms = 4000

export interface Followed {
  readonly steps: number
}

/**
 * Goes on as the screen says until the draw is closed, or until it asks for certain words; nothing that takes its time
 * is waited for.
 * @throws Error with what is on the screen when nothing there says what to do next
 */
export async function followScreen(page: Page, novice: Novice, until?: RegExp): Promise<Followed> {
  for (let steps = 0; steps < MOST_n; steps++) {
    const seen = await novice.reads()
    if (seen.isClosed || (until && seen.next && until.test(seen.next))) return { steps }
    if (seen.next === undefined) {
      throw new Error(
        `Nothing in sight says what to do next. The screen says: "${seen.instruction}"`,
      )
    }
    // Presses wait for a moment after a change, and the screen shows it.
    await page.locator('.draw:not([data-held])').waitFor()
    await novice.presses(seen.next)
    await changes(page, novice, seen)
  }
  throw new Error('The draw does not come to its end.')
}

async function changes(page: Page, novice: Novice, before: DrawSeen): Promise<void> {
  const end = Date.now() + CHANGE_ms
  while (Date.now() < end) {
    await page.waitForTimeout(80)
    const after = await novice.reads()
    const isSame = (['instruction', 'next', 'tubes'] as const).every(
      (key) => after[key] === before[key],
    )
    if (after.isClosed || !isSame) return
  }
  novice.hesitates(`nothing changed after "${before.next}" at "${before.instruction}"`)
}
