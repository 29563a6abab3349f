import type { Page } from 'playwright-core'
import { emptyShare, readPng } from './emptyRows.ts'
import { measureState, openGallery } from './galleryWindow.ts'
import { judgeScreens } from './judgeScreens.ts'
import type { ScreenMeasured } from './screenMeasured.ts'
import { SIZES, THEMES, type Size } from './looks.ts'
import type { Theme } from '../ui/gallery/forceTheme.ts'

export interface MeasureOptions {
  readonly sizes?: readonly Size[]
  /** By size: colors hardly change with it. The first is measured whole. */
  readonly themes?: (size: Size) => readonly Theme[]
  readonly states?: (name: string) => boolean
  /** Also from pixels, which takes longer: of the first theme, since all paint the same rows. */
  readonly pixels?: boolean
}

/** Measures every state of the gallery in every size, and its colors in every theme. */
export async function measureScreens(
  page: Page,
  url: string,
  { sizes = SIZES, themes = () => THEMES, states = () => true, pixels = true }: MeasureOptions = {},
): Promise<readonly ScreenMeasured[]> {
  const screens: ScreenMeasured[] = []
  const cdp = await page.context().newCDPSession(page)
  const shot = async (): Promise<number> => {
    const { data } = await cdp.send('Page.captureScreenshot', {
      format: 'png',
      optimizeForSpeed: true,
    })
    return emptyShare(readPng(Buffer.from(data, 'base64')))
  }
  const names = (await openGallery(page, url)).filter(states)
  for (const size of sizes) {
    await page.setViewportSize(size)
    const ofSize: ScreenMeasured[] = []
    for (const state of names) {
      const all = await measureState(page, state, themes(size))
      const share = pixels ? await shot() : undefined
      all.forEach((measured, i) => {
        const theme = themes(size)[i] ?? 'light'
        const emptyShare = i === 0 ? share : undefined
        ofSize.push({ ...measured, state, size: size.name, theme, emptyShare })
      })
    }
    screens.push(...judgeScreens(ofSize, size))
  }
  return screens
}
