import type { Page } from 'playwright-core'
import { followScreen } from './followScreen.ts'
import type { Novice } from './novice.ts'

/** The invented demonstration with slow blood, a faint at the second tube, and a second attempt. */
export async function troubledDraw(page: Page, novice: Novice): Promise<void> {
  await novice.presses('Try the invented demo')
  await novice.presses('Plan the tubes')
  await novice.presses('Start the draw')
  await page.locator('[data-screen="draw"]').waitFor()
  await followScreen(page, novice, /tube complete/)
  await tells(page, novice, 'slow flow')
  await followScreen(page, novice, /next one on/)
  await followScreen(page, novice, /tube complete/)
  await tells(page, novice, 'feeling faint')
  await followScreen(page, novice, /try again/)
  await followScreen(page, novice)
}

/** Says by touch what happened: where it stands in sight, and else behind "what else happened". */
async function tells(page: Page, novice: Novice, phrase: string): Promise<void> {
  await page.locator('.draw:not([data-held])').waitFor()
  const inSight = await page.getByRole('button', { name: phrase }).count()
  if (inSight === 0) {
    novice.hesitates(`"${phrase}" is behind "What else happened"`)
    await novice.presses('What else happened')
    await page.waitForTimeout(800)
  }
  await novice.presses(phrase)
  await page.waitForTimeout(800)
}
