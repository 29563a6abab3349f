import type { Page } from 'playwright-core'
import type { LimitKey } from '../../src/core/policy/policy.ts'

/** Limits of a site that waits less, so that a draw in real time is over sooner. */
const QUICK_LIMITS = {
  drying_s: 10,
  pressure_s: 30,
  siteWatch_s: 5,
} as const satisfies Partial<Record<LimitKey, number>>

/** Brings the limits in through the catalog screen, as a site does; leaves the page on its first screen. */
export async function useQuickLimits(page: Page): Promise<void> {
  await page.locator('.places button', { hasText: 'Catalog' }).click()
  await page.locator('#policy-file').setInputFiles({
    name: 'limits.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify({ limits: QUICK_LIMITS })),
  })
  const loaded = page.waitForEvent('load')
  await page.getByRole('button', { name: 'Use these limits' }).click()
  await loaded
}
