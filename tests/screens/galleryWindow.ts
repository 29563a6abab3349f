import type { Page } from 'playwright-core'
import type { Theme } from '../ui/gallery/forceTheme.ts'
import type { Measured, What } from './inPage/measured.ts'

/** What the gallery offers to whoever drives it. */
export interface GalleryWindow extends Window {
  readonly gallery: {
    readonly names: readonly string[]
    /** Of the screens of the day. */
    readonly scenes: readonly string[]
    readonly show: (name: string, paper?: 'A4' | 'letter') => Promise<void>
    readonly theme: (theme: Theme | undefined) => void
    readonly measured: (what?: What) => Measured
  }
}

/** Nothing moves while it is measured. */
const STILL = '*, *::before, *::after { transition: none !important; animation: none !important; caret-color: transparent !important }' // prettier-ignore

/** Opens the gallery; gives the names of its states. */
export async function openGallery(page: Page, url: string): Promise<readonly string[]> {
  await page.goto(url)
  await page.waitForFunction(() => 'gallery' in window)
  await page.addStyleTag({ content: STILL })
  return page.evaluate(() => (window as unknown as GalleryWindow).gallery.names)
}

/** Shows a state and measures it in every theme: the first whole, the others by their colors. The first is left. */
export const measureState = (
  page: Page,
  name: string,
  themes: readonly Theme[],
): Promise<readonly Measured[]> =>
  page.evaluate(
    async ([wanted, shown]) => {
      const { show, theme, measured } = (window as unknown as GalleryWindow).gallery
      await show(wanted)
      const colors = shown.slice(1).map((each) => {
        theme(each)
        return measured('colors')
      })
      theme(shown[0])
      return [measured('all'), ...colors]
    },
    [name, themes] as const,
  )
