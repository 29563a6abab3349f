import { chromium, type Browser, type Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { needChromium } from '../../scripts/findChromium.ts'
import { axeFindings } from '../support/e2eAudit.ts'
import { WIDE } from '../support/wide.ts'
import { openGallery, type GalleryWindow } from './galleryWindow.ts'
import { faultLines, listFindings } from './listFindings.ts'
import { SIZES, THEMES } from './looks.ts'
import { measureScenes } from './measureScenes.ts'
import { isOpen, OPEN_SCENES } from './open.ts'
import { serveGallery, type ServedGallery } from './serveGallery.ts'

/** Every run leaves out those of which another shows the same and more, and the dark on two of the sizes. */
const scenes = (name: string): boolean => !/^(dayFull|figuresMany|score)$/.test(name)

/** A figure that is read from two metres: 1/200 of the distance at 132 CSS px an inch, as the draw's instruction. */
const BOARD_px = 52

let served: ServedGallery
let browser: Browser
let page: Page

beforeAll(async () => {
  served = await serveGallery()
  browser = await chromium.launch({ executablePath: needChromium() })
  page = await browser.newPage({ reducedMotion: 'reduce', bypassCSP: true })
})
afterAll(async () => {
  await browser.close()
  served.close()
})

test('nothing on the screens of the day is covered, cut, overlapping, too small, too pale or too wide', async () => {
  const url = `${served.url}#narrow`
  const screens = WIDE
    ? await measureScenes(page, url)
    : [
        ...(await measureScenes(page, url, { scenes, sizes: SIZES.slice(0, 1) })),
        ...(await measureScenes(page, url, {
          scenes,
          sizes: SIZES.slice(1, 3),
          themes: ['light'],
        })),
      ]
  expect(screens.length).toBeGreaterThanOrEqual(WIDE ? 78 : 40)
  const held = screens.map((screen) => ({
    ...screen,
    findings: screen.findings.filter((finding) => !isOpen(screen, finding, OPEN_SCENES)),
  }))
  expect(faultLines(listFindings(held))).toBe('')
  // What is kept by now leaves the list.
  const idle = OPEN_SCENES.filter(
    (open) =>
      !screens.some((screen) => screen.findings.some((finding) => isOpen(screen, finding, [open]))),
  )
  if (WIDE) expect(idle).toEqual([])
  const boards = screens.filter(({ state, size }) => state === 'benchBusy' && size !== '390x844')
  expect(Math.min(...boards.map(({ clock_px = BOARD_px }) => clock_px))).toBeGreaterThanOrEqual(BOARD_px) // prettier-ignore
}, 900_000)

test('the board of the bench is in sight at once, above the rows and the rotor', async () => {
  await openGallery(page, `${served.url}#narrow`)
  for (const [width, height] of [
    [1180, 820],
    [820, 1180],
  ] as const) {
    await page.setViewportSize({ width, height })
    const bottoms = await page.evaluate(async () => {
      await (window as unknown as GalleryWindow).gallery.show('benchBusy')
      return [...document.querySelectorAll('.benchTotal, .rotor')].map((each) => ({
        isRotor: each.matches('.rotor'),
        top: each.getBoundingClientRect().top,
        bottom: each.getBoundingClientRect().bottom,
      }))
    })
    const tiles = bottoms.filter(({ isRotor }) => !isRotor)
    const rotors = bottoms.filter(({ isRotor }) => isRotor)
    expect(tiles.length).toBeGreaterThan(4)
    expect(Math.max(...tiles.map(({ bottom }) => bottom))).toBeLessThanOrEqual(height)
    expect(Math.min(...rotors.map(({ top }) => top))).toBeGreaterThan(
      Math.max(...tiles.map(({ bottom }) => bottom)),
    )
  }
})

test.each(['A4', 'letter'] as const)(
  "the patient's leaflet is one sheet of %s, in letters for whoever reads without glasses",
  async (paper) => {
    await openGallery(page, `${served.url}#narrow`)
    await page.setViewportSize({ width: 1180, height: 820 })
    await page.evaluate(
      (wanted) => (window as unknown as GalleryWindow).gallery.show('chartForPatient', wanted),
      paper,
    )
    await page.locator('.leafletTools button').click()
    const file = (await page.pdf({ preferCSSPageSize: true })).toString('latin1')
    expect([...file.matchAll(/\/Type\s*\/Page\b(?!s)/g)]).toHaveLength(1)
    await page.emulateMedia({ media: 'print' })
    const { sizes_px, others } = await page.evaluate(() => ({
      sizes_px: [...document.querySelectorAll('.leaflet, .leaflet *')].map((each) =>
        parseFloat(getComputedStyle(each).fontSize),
      ),
      others: [...document.body.children].filter(
        (each) => !each.matches('.leaflet') && each.checkVisibility(),
      ).length,
    }))
    await page.emulateMedia({ media: null })
    // 14 pt is common practice for older readers, no source.
    expect(Math.min(...sizes_px)).toBeGreaterThanOrEqual((14 * 96) / 72 - 0.1)
    expect(others).toBe(0)
  },
)

test('axe objects to nothing on the screens of the day as they are painted, by day and by night', async () => {
  const names = await openGallery(page, `${served.url}#narrow`).then(() =>
    page.evaluate(() => (window as unknown as GalleryWindow).gallery.scenes),
  )
  await page.setViewportSize({ width: 1180, height: 820 })
  const found: string[] = []
  for (const name of names.filter((each) => WIDE || scenes(each))) {
    for (const theme of WIDE ? THEMES : (['light'] as const)) {
      await page.evaluate(
        async ([scene, wanted]) => {
          const { show, theme: force } = (window as unknown as GalleryWindow).gallery
          await show(scene)
          force(wanted)
        },
        [name, theme] as const,
      )
      found.push(...(await axeFindings(page)).map((line) => `${name}, ${theme}: ${line}`))
    }
  }
  expect(found).toEqual([])
}, 600_000)
