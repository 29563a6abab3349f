import type { Page } from 'playwright-core'

const PIN = '482913'

/** Sets a PIN in the settings as a person does, and goes back to the first screen. */
export async function setPin(page: Page): Promise<void> {
  await page.locator('.places button', { hasText: 'Settings' }).click()
  await page.getByLabel('PIN', { exact: true }).fill(PIN)
  await page.getByLabel('The same PIN again').fill(PIN)
  await page.getByRole('button', { name: 'Set the PIN' }).click()
  await page.getByLabel('The key is printed or written down').check({ timeout: 60_000 })
  await page.getByRole('button', { name: 'Done' }).click()
  await page.getByRole('button', { name: 'Back to the start' }).click()
}

export async function unlock(page: Page): Promise<void> {
  await page.getByLabel('PIN', { exact: true }).fill(PIN)
  await page.getByRole('button', { name: 'Open', exact: true }).click()
}
