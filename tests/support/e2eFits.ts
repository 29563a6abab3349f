import type { Page } from 'playwright-core'
import { expect } from 'vitest'

/** Sizes of a tablet both ways and of a phone, CSS pixels. */
export const SIZES = [
  [1180, 820],
  [820, 1180],
  [390, 844],
] as const

interface Shown {
  readonly width: number
  readonly height: number
  /** Pictures are kept as `NAME-WIDTH-SCHEME.png` in the folder that `STILLHAND_SHOTS` names, if it does. */
  readonly name: string
  readonly fullPage?: boolean
}

/** Nothing on the page is wider than a window of that size, by day and by night. */
export async function expectFits(page: Page, shown: Shown): Promise<void> {
  const { width, height, name, fullPage = false } = shown
  await page.setViewportSize({ width, height })
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme })
    const wide = await page.evaluate(() => document.documentElement.scrollWidth)
    expect(wide).toBeLessThanOrEqual(width)
    const folder = process.env['STILLHAND_SHOTS']
    if (folder === undefined) continue
    await page.screenshot({ path: `${folder}/${name}-${width}-${colorScheme}.png`, fullPage })
  }
}
