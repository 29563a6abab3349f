import type { Page } from 'playwright-core'
import type { Theme } from '../ui/gallery/forceTheme.ts'
import { measureState, openGallery, type GalleryWindow } from './galleryWindow.ts'
import { SIZES, THEMES, type Size } from './looks.ts'
import type { ScreenMeasured } from './screenMeasured.ts'

/** A screen outside the draw is as long as it must be, and read on a notebook as on a tablet. */
const SCENE_SIZES = SIZES.slice(0, 3)

/**
 * Measures the screens of the day, each in a window as high as its page: what stands far down is held to the same.
 * @param url of the gallery
 */
export async function measureScenes(
  page: Page,
  url: string,
  {
    scenes = () => true,
    sizes = SCENE_SIZES,
    themes = THEMES,
  }: {
    readonly scenes?: (name: string) => boolean
    readonly sizes?: readonly Size[]
    readonly themes?: readonly Theme[]
  } = {},
): Promise<readonly ScreenMeasured[]> {
  await openGallery(page, url)
  // What is as high as a share of the window would grow with it.
  await page.addStyleTag({ content: '.catalogueRows { max-height: 492px !important }' })
  const names = await page.evaluate(() => (window as unknown as GalleryWindow).gallery.scenes)
  const screens: ScreenMeasured[] = []
  for (const { name: size, width, height } of sizes) {
    for (const state of names.filter(scenes)) {
      await page.setViewportSize({ width, height })
      const high = await page.evaluate(async (name) => {
        await (window as unknown as GalleryWindow).gallery.show(name)
        return document.documentElement.scrollHeight
      }, state)
      await page.setViewportSize({ width, height: Math.max(height, high) })
      const all = await measureState(page, state, themes)
      all.forEach((measured, i) => {
        screens.push({
          ...measured,
          state,
          size,
          theme: themes[i] ?? 'light',
          emptyShare: undefined,
        })
      })
    }
  }
  return screens
}
