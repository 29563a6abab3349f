import { chromium, type Browser, type Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { needChromium } from '../../scripts/findChromium.ts'
import { emptyShare, readPng } from './emptyRows.ts'
import { openGallery, type GalleryWindow } from './galleryWindow.ts'
import { MEASURES } from './inPage/finding.ts'
import type { Measured } from './inPage/measured.ts'
import { SEEDED_FAULTS, SOUND_PAGE } from './seededFaults.ts'
import { serveGallery, type ServedGallery } from './serveGallery.ts'

let served: ServedGallery
let browser: Browser
let page: Page

beforeAll(async () => {
  served = await serveGallery()
  browser = await chromium.launch({ executablePath: needChromium() })
  page = await browser.newPage({ bypassCSP: true, viewport: { width: 1180, height: 820 } })
  await openGallery(page, `${served.url}#narrow`)
})
afterAll(async () => {
  await browser.close()
  served.close()
})

/** What the measures say of a page of its own, in place of the gallery's. */
const measure = (html: string): Promise<Measured> =>
  page.evaluate((content) => {
    document.body.innerHTML = `<main data-screen="draw" style="display:flow-root;background:#fff;font:18px sans-serif">${content}</main>`
    return (window as unknown as GalleryWindow).gallery.measured()
  }, html)

describe('a fault that is put in is found', () => {
  test.each(SEEDED_FAULTS)('$measure: $names', async ({ measure: wanted, names, html }) => {
    const { findings } = await measure(html)
    const found = findings.filter((each) => each.measure === wanted)
    expect(found.map(({ selector }) => selector).join(' ')).toContain(names)
  })

  test('every measure of one page has its fault', () => {
    // These need other screens or pixels beside the page, and are held to theirs below and in the unit tests.
    const others = ['mainMoved', 'smallInstruction', 'empty']
    const seeded = new Set<string>(SEEDED_FAULTS.map((fault) => fault.measure))
    expect(MEASURES.filter((each) => !seeded.has(each) && !others.includes(each))).toEqual([])
  })
})

test('where nothing is wrong nothing is found', async () => {
  expect((await measure(SOUND_PAGE)).findings).toEqual([])
})

test('the height of a capital is that of its pixels', async () => {
  const { instruction_px } = await measure(
    '<p data-part="instruction" style="margin:0;font:84px/100px serif;color:#000">HHHH</p>',
  )
  const { width, height, data } = readPng(await page.screenshot())
  const dark = Array.from({ length: height }, (_, y) => y).filter((y) =>
    Array.from({ length: 150 }, (_, x) => data[(y * width + x) * 4] ?? 255).some(
      (red) => red < 128,
    ),
  )
  const painted = (dark.at(-1) ?? 0) - (dark[0] ?? 0) + 1
  expect(Math.abs(painted - (instruction_px ?? 0))).toBeLessThanOrEqual(1.5)
})

test('rows with nothing in them are counted in the picture', async () => {
  await measure('<div style="height:205px;width:30px;background:#333"></div>')
  expect(emptyShare(readPng(await page.screenshot()))).toBeCloseTo(1 - 205 / 820, 2)
})
