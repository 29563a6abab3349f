import type { Page } from 'playwright-core'
import type { LimitKey } from '../../src/core/policy/policy.ts'

export const BAND_LIMIT_ms = 20_000

/** The shortest limits that a site may set, so that every alarm is waited for in real time. */
const LIMITS = {
  bandFirstCue_s: 6,
  bandSecondCue_s: 12,
  bandLastCue_s: 17,
  bandLimit_s: BAND_LIMIT_ms / 1000,
  bandAlarmRepeat_s: 2,
  flashWait_s: 5,
  drying_s: 5,
  pressure_s: 30,
  siteWatch_s: 5,
} as const satisfies Partial<Record<LimitKey, number>>

/** Brings the limits in through the catalog screen, and switches listening off in the settings, as a person does. */
export async function setSiteUp(page: Page, voice: boolean): Promise<void> {
  await page.locator('.places button', { hasText: 'Catalog' }).click()
  await page.locator('#policy-file').setInputFiles({
    name: 'limits.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify({ limits: LIMITS })),
  })
  const loaded = page.waitForEvent('load')
  await page.getByRole('button', { name: 'Use these limits' }).click()
  await loaded
  await page.locator('h1').waitFor()
  if (voice) return
  await page.locator('.places button', { hasText: 'Settings' }).click()
  await page.getByLabel('Listen during a draw').uncheck()
  await page.waitForTimeout(200)
  await page.reload()
  await page.locator('h1').waitFor()
}
