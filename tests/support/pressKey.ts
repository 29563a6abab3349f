import type { Page } from 'playwright-core'

/**
 * Presses a key of the draw as a person does who has seen what stands there: after the moment in which presses wait. An
 * answer has no key of its own: the arrow goes to it, and Space takes it.
 */
export async function pressKey(page: Page, key: string, hold?: { delay: number }): Promise<void> {
  await page.locator('.draw:not([data-held])').waitFor()
  await page.keyboard.press(key, hold)
  if (key === 'ArrowRight') await page.keyboard.press('Space', hold)
}
