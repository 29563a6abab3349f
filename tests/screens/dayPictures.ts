/** Makes the pictures of the day for the README from the gallery: `npm run pictures` runs it after those of a draw. */
import { mkdirSync } from 'node:fs'
import { chromium } from 'playwright-core'
import { needChromium } from '../../scripts/findChromium.ts'
import { openGallery, type GalleryWindow } from './galleryWindow.ts'
import { serveGallery } from './serveGallery.ts'

const OUT = 'pictures'
/** Scenes by the name of their picture. Everybody in them is invented. */
const PICTURES = {
  day: 'dayListAlone',
  bench: 'benchBusy',
  courier: 'courierFull',
  figures: 'figuresMany',
  score: 'scoreLost',
} as const

mkdirSync(OUT, { recursive: true })
const served = await serveGallery()
const browser = await chromium.launch({ executablePath: needChromium() })
try {
  const page = await browser.newPage({
    reducedMotion: 'reduce',
    bypassCSP: true,
    viewport: { width: 1180, height: 820 },
  })
  await openGallery(page, `${served.url}#narrow`)
  for (const [name, scene] of Object.entries(PICTURES)) {
    await page.evaluate((shown) => (window as unknown as GalleryWindow).gallery.show(shown), scene)
    await page.screenshot({ path: `${OUT}/${name}.png` })
  }
} finally {
  await browser.close()
  served.close()
}
