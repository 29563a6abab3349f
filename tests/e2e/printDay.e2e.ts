import { mkdirSync, writeFileSync } from 'node:fs'
import { chromium, type Browser, type Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { needChromium } from '../../scripts/findChromium.ts'
import { openGallery, type GalleryWindow } from '../screens/galleryWindow.ts'
import { serveGallery, type ServedGallery } from '../screens/serveGallery.ts'

// Set PRINT_DIR to keep the PDF files for looking at.
const keepIn = process.env['PRINT_DIR']

interface Printed {
  readonly scene: string
  /** What is pressed to print, by its words; a request is there without. */
  readonly press?: string
  readonly has: readonly string[]
  /** What belongs to the screen or to nobody on this paper. */
  readonly lacks: readonly string[]
  readonly most_pages: number
  readonly least_pages?: number
}

/** Papers of a day. Names, numbers and places are invented. */
const PAPERS: Readonly<Record<string, Printed>> = {
  supplies: {
    scene: 'daySupplies',
    press: 'Print the supplies',
    has: ['Supplies for the list', 'Counted', 'Needed', 'On hand', 'Specimen labels'],
    lacks: ['Call the next patient', 'Fauxley'],
    most_pages: 2,
  },
  roundSheet: {
    scene: 'dayFull',
    press: 'Print the round sheet',
    has: ['Round sheet', 'Ward 2, bed 4', 'Ines Fauxley', 'MRN-000', '2 Example Lane', 'Done at'],
    lacks: ['Call the next patient', 'Ward Ward'],
    most_pages: 2,
  },
  manifest: {
    scene: 'courierFull',
    press: 'Print the manifest',
    has: [
      'Manifest',
      'D7261125000501',
      'D7261125000502',
      'Kim Carrier',
      'Example Laboratory',
      '25 Nov 2026 09:02',
    ],
    lacks: ['Print the manifest', 'Show names', '+01:00'],
    most_pages: 1,
  },
  receipt: {
    scene: 'courierFull',
    press: 'Print the receipt',
    has: ['D7261125000601', 'D7261125000603', 'Front desk', 'AI', 'MRN-000123'],
    // It stays outside: no full name.
    lacks: ['Alex Invented', 'Print the receipt'],
    most_pages: 1,
  },
  request: {
    scene: 'requestOfTwo',
    has: ['O-04', 'O-05', 'Ward 2, bed 4', 'Recollection', 'Received by'],
    lacks: ['Start the draw'],
    // One for each of its two laboratories.
    ...{ least_pages: 2, most_pages: 2 },
  },
  seriesRequest: {
    scene: 'dayFull',
    press: 'Print the request',
    has: ['Request for blood tests', 'Alex Invented', 'Collected'],
    lacks: ['Call the next patient'],
    most_pages: 1,
  },
  figures: {
    scene: 'figuresByPerson',
    press: 'Print',
    has: ['How well we draw', 'Robin Example (RE)'],
    lacks: ['Alex Invented'],
    most_pages: 12,
  },
}

/** ISO 216 A4 210 x 297 mm and US letter 8.5 x 11 in, points. */
const SIZES = { A4: [595.3, 841.9], letter: [612, 792] } as const

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
  await browser?.close()
  served?.close()
})

/** Lays the paper of a scene out. */
async function layOut(name: string, paper: keyof typeof SIZES): Promise<void> {
  const { scene, press } = PAPERS[name] ?? { scene: '' }
  await page.emulateMedia({ media: null })
  await page.evaluate(
    async ([shown, size]) => {
      const { show } = (window as unknown as GalleryWindow).gallery
      await show(shown, size)
    },
    [scene, paper] as const,
  )
  if (press !== undefined) {
    await page.getByRole('button', { name: press, exact: true }).first().click()
  }
}

/** The PDF of what is laid out; what is printed is gone from some screens afterwards. */
async function printed(name: string, paper: keyof typeof SIZES): Promise<string> {
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true })
  if (keepIn) {
    mkdirSync(keepIn, { recursive: true })
    writeFileSync(`${keepIn}/day-${name}-${paper}.pdf`, pdf)
  }
  return pdf.toString('latin1')
}

describe.each(Object.keys(PAPERS))('the paper %s', (name) => {
  const { has = [], lacks = [], most_pages = 0, least_pages = 1 } = PAPERS[name] ?? {}

  it.each(['A4', 'letter'] as const)('goes whole on %s', async (paper) => {
    await layOut(name, paper)
    // As wide as the paper between its margins of 18 mm.
    const width = Math.round(((SIZES[paper][0] - 102) / 72) * 96)
    await page.setViewportSize({ width, height: 1000 })
    await page.emulateMedia({ media: 'print' })
    const text = await page.locator('body').innerText()
    const spills = await page
      .locator('body *:visible')
      .evaluateAll((parts) =>
        parts
          .filter((part) => part.getBoundingClientRect().right > innerWidth + 1)
          .map((part) => `${part.tagName} ${part.textContent?.slice(0, 40)}`),
      )
    const controls = await page.locator('button:visible, input:visible, select:visible').count()
    await page.emulateMedia({ media: null })
    await page.setViewportSize({ width: 1180, height: 820 })
    const pdf = await printed(name, paper)
    const pages = [...pdf.matchAll(/\/Type\s*\/Page\b(?!s)/g)].length
    expect(pages).toBeGreaterThanOrEqual(least_pages)
    expect(pages).toBeLessThanOrEqual(most_pages)
    const box = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/.exec(pdf)
    // A screen that is printed as it is has the paper of the printer.
    if (name !== 'figures') {
      expect(Math.abs(Number(box?.[1]) - SIZES[paper][0])).toBeLessThan(1.5)
      expect(Math.abs(Number(box?.[2]) - SIZES[paper][1])).toBeLessThan(1.5)
    }
    for (const each of has) expect(text).toContain(each)
    for (const each of lacks) expect(text).not.toContain(each)
    expect(spills).toEqual([])
    expect(controls).toBe(0)
  })
})
