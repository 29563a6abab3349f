import type { Page } from 'playwright-core'
import { openBrowser, type OpenBrowser } from './e2eBrowser.ts'
import { startDemo } from './e2eDraw.ts'
import { recordHearings } from './e2eHearings.ts'
import { fakeMicrophone } from './e2eMic.ts'
import { recordSounds } from './e2eSounds.ts'
import { useQuickLimits } from './quickLimits.ts'
import { watch } from './e2eWatch.ts'

export interface DemoDraw {
  readonly browser: OpenBrowser
  readonly page: Page
  readonly faults: readonly string[]
}

export interface DemoOptions {
  /** What Chromium's own fake microphone plays; without it the test speaks into the page's. */
  readonly micFile?: string
  /** With limits that wait less than the shipped ones. */
  readonly quick?: boolean
  /** What is set on the first screen before the draw; it comes back there. */
  readonly prepare?: (page: Page) => Promise<void>
}

/** A browser at the first step of the invented draw, listening. */
export async function openDemoDraw(
  baseUrl: string,
  { micFile, quick = false, prepare }: DemoOptions = {},
): Promise<DemoDraw> {
  const browser = await openBrowser(micFile ? { micFile } : {})
  try {
    if (!micFile) await fakeMicrophone(browser.context)
    await recordSounds(browser.context)
    await recordHearings(browser.context)
    const faults = await watch(browser.context, baseUrl)
    const page = browser.context.pages()[0] ?? (await browser.context.newPage())
    await page.goto(baseUrl)
    if (quick) await useQuickLimits(page)
    await prepare?.(page)
    await startDemo(page)
    await page.locator('.listening.listening').getByText('Listening').waitFor({ timeout: 60_000 })
    return { browser, page, faults }
  } catch (error) {
    await browser.close()
    throw error
  }
}
