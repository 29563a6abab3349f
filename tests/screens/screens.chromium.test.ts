import { chromium, type Browser, type Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { needChromium } from '../../scripts/findChromium.ts'
import { WIDE } from '../support/wide.ts'
import { openGallery, type GalleryWindow } from './galleryWindow.ts'
import { faultLines, listFindings } from './listFindings.ts'
import { SIZES, THEMES, type Size } from './looks.ts'
import { measureScreens } from './measureScreens.ts'
import { isOpen, OPEN } from './open.ts'
import { serveGallery, type ServedGallery } from './serveGallery.ts'

/** Few enough for every run: one of each kind of screen. The wide run measures all there are. */
const FEW = /^straight\/(0|2|8|10|18|19|43|52) |^special\/(band over$|faint with slow flow|faint for an hour|sheet in an alarm|sheet with the aftercare|discreet$|earpiece gone in an alarm|ears open at preparation|clock set|on another page)|^many tubes\/labels|^ask\/(overLimit|endUnfinished)/ // prettier-ignore

/** In the wide run, what a notebook shows of a draw without departures. */
const isOnTheWay = (name: string): boolean => WIDE && /^(?:straight|special)\//.test(name)

/** The dark is the same on a tablet either way, and on a notebook. */
const DARK_TOO = ['1180x820', '390x844']

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

test('nothing on the draw screen is covered, cut, overlapping, too small, too pale or out of its place', async () => {
  const url = WIDE ? served.url : `${served.url}#narrow`
  const themes = ({ name }: Size) => (DARK_TOO.includes(name) ? THEMES : THEMES.slice(0, 1))
  const few = (name: string): boolean => FEW.test(name)
  // A notebook is nearly as large as a tablet that lies: what goes straight on will do there.
  const most = { sizes: SIZES.slice(0, 3), states: (name: string) => WIDE || few(name) }
  const notebook = {
    sizes: SIZES.slice(3),
    states: (name: string) => few(name) || isOnTheWay(name),
  }
  const screens = [
    ...(await measureScreens(page, url, { ...most, themes, pixels: WIDE })),
    ...(await measureScreens(page, url, { ...notebook, themes, pixels: WIDE })),
  ]
  expect(screens.length).toBeGreaterThan(WIDE ? 2500 : 80)
  const held = screens.map((screen) => ({
    ...screen,
    findings: screen.findings.filter((finding) => !isOpen(screen, finding)),
  }))
  expect(faultLines(listFindings(held))).toBe('')
  // What is kept by now leaves the list.
  const idle = OPEN.filter(
    (open) =>
      !screens.some((screen) => screen.findings.some((finding) => isOpen(screen, finding, [open]))),
  )
  if (WIDE) expect(idle).toEqual([])
}, 2_400_000)

describe('on a low phone, scrolled to its end,', () => {
  beforeEach(async () => {
    await openGallery(page, `${served.url}#narrow`)
    await page.setViewportSize({ width: 390, height: 640 })
  })

  test.each([
    ['special/faint with slow flow', ['[data-part="clock"]', '.severe .instruction']],
    ['special/clock set', ['[data-part="clock"]', '[data-part="notice"]']],
    ['straight/18 release', ['[data-part="clock"]']],
  ])('%s keeps in sight what matters', async (state, top) => {
    const parts = [...top, '[data-place="main"]', '.drawPage > .safetyRow > .stop']
    const { isLonger, hidden } = await page.evaluate(
      async ([name, wanted]) => {
        await (window as unknown as GalleryWindow).gallery.show(name)
        const { scrollHeight } = document.documentElement
        window.scrollTo(0, scrollHeight)
        return {
          isLonger: scrollHeight > innerHeight,
          hidden: wanted.filter((selector) => {
            const part = document.querySelector(selector)
            if (!part) return true
            const { left, right, top, bottom } = part.getBoundingClientRect()
            const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2)
            return top < 0 || bottom > innerHeight || !(hit && (part.contains(hit) || hit === part))
          }),
        }
      },
      [state, parts] as const,
    )
    expect(isLonger).toBe(true)
    expect(hidden).toEqual([])
  })
})

test('on a tablet that stands upright the clock is 300 px high', async () => {
  await openGallery(page, `${served.url}#narrow`)
  await page.setViewportSize({ width: 820, height: 1180 })
  const heights = await page.evaluate(async () => {
    const { names, show } = (window as unknown as GalleryWindow).gallery
    const found: number[] = []
    for (const name of names.filter((each) =>
      /^straight\/(8|10|1[6-9]|2)|^special\/(faint|band)/.test(each),
    )) {
      await show(name)
      const clock = document.querySelector('.clockPlace .bigClock')
      if (clock) found.push(clock.getBoundingClientRect().height)
    }
    return found
  })
  expect(heights.length).toBeGreaterThan(12)
  expect(Math.min(...heights)).toBeGreaterThanOrEqual(300)
})
