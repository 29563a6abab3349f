import { mkdirSync, writeFileSync } from 'node:fs'
import { chromium, type Browser, type Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { needChromium } from '../../scripts/findChromium.ts'
import { labelsFor } from '../../src/core/record/labels.ts'
import { decodeCode128 } from '../support/decodeCode128.ts'
import { chartPage, labelsPage, planPage } from '../support/renderRecord.ts'
import { sampleCollector, sampleLog } from '../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../support/samplePlan.ts'
import { shippedSite } from '../support/site.ts'
import { blankDraft } from '../../src/app/order/planInput.ts'

// Set PRINT_DIR to keep the PDF files, and pictures of them, for looking at.
const keepIn = process.env['PRINT_DIR']

const log = sampleLog({
  opening: {
    invented: true,
    patient: {
      fullName: 'Maximiliana Alexandra Featherstonehaugh-Cholmondeley',
      birthDate: '1980-02-29',
      recordNumber: 'MRN-0001234567890',
    },
  },
  without: (event) => event.type === 'bandOff',
  add: [
    [153, { type: 'exceptionRaised', kind: 'slowFlow', tubeId: 't3' }],
    [156, { type: 'exceptionEnded', kind: 'slowFlow', how: 'tubeFull' }],
    [168, { type: 'bandOff' }],
    [168, { type: 'flagRaised', flag: 'bandOverLimit' }],
    [
      500,
      { type: 'addendumMade', by: sampleCollector, text: 'Right arm, not left.', why: 'Slip.' },
    ],
  ],
})

/** As much on a label as can be: a wide name, marks, transfusion, a ward. */
const crowded = sampleLog({
  opening: {
    patient: {
      ...{ fullName: 'Wilhelmina Wwwwwwwwwwwwwwww-Mmmmmmmmmm', recordNumber: 'WWWWWWWWWWWW-12345' },
      ...{ familyName: 'Wwwwwwwwwwwwwwww-Mmmmmmmmmm', givenNames: 'Wilhelmina' },
      birthDate: '1980-02-29',
    },
    order: {
      ...{ orderNumber: 'ORD-77-WWWWW', priority: 'stat', ward: 'Ward WWW, bed 12' },
      tests: ['bloodGroup', 'test-activatorGel'],
    },
    plan: samplePlan([
      sampleTube('t1', 'citrate', { handling: ['ice', 'light', 'upright'] }),
      sampleTube('t2', 'activatorGel', { tests: ['bloodGroup'] }),
      sampleTube('t3', 'edtaK2'),
    ]),
  },
})

/** Culture bottles with their site, an iced tube with its limit, a redrawn tube, and one that goes without a label. */
const cultures = sampleLog({
  opening: {
    order: {
      ...{ orderNumber: 'ORD-78', priority: 'stat', ward: 'Ward 3, bed 12' },
      tests: ['bloodCultureAerobic', 'bloodCultureAnaerobic', 'ammonia'],
    },
    plan: samplePlan([
      sampleTube('t1', 'cultureAerobic', {
        ...{ role: 'culture', name: 'Aerobic culture bottle', tests: ['bloodCultureAerobic'] },
        ...{ nominal_mL: 10, least_mL: 8 },
      }),
      sampleTube('t2', 'cultureAnaerobic', {
        ...{ role: 'culture', name: 'Anaerobic culture bottle', tests: ['bloodCultureAnaerobic'] },
        ...{ nominal_mL: 10, least_mL: 8 },
      }),
      sampleTube('t3', 'edtaK2', {
        ...{ name: 'EDTA 2 mL', tests: ['ammonia'], handling: ['ice'] },
        ...{ timeLimit_min: 15, timeLimitOf: 'ammonia' },
      }),
    ]),
  },
  without: (event) => event.type === 'labelReadBack' && event.tubeId === 't3',
  add: [
    [158, { type: 'exceptionRaised', kind: 'droppedTube', tubeId: 't3' }],
    [158, { type: 'tubeSwapped', tubeId: 't3', why: 'droppedTube', redrawnAs: 51 }],
    [159, { type: 'tubeOn', tubeId: 't3' }],
    [165, { type: 'tubeOff', tubeId: 't3', fill: 'full' }],
    [170, { type: 'tubeHandled', tubeId: 't3', how: 'ice' }],
  ],
})

/** Transfusion with a band number and a long name. */
const transfusion = sampleLog({
  opening: {
    patient: {
      ...{ fullName: 'Maximiliana Alexandra Featherstonehaugh-Cholmondeley' },
      ...{ familyName: 'Featherstonehaugh-Cholmondeley', givenNames: 'Maximiliana Alexandra' },
      ...{ birthDate: '1980-02-29', recordNumber: 'MRN-0001234567890' },
    },
    order: {
      ...{ orderNumber: 'ORD-79', priority: 'stat', ward: 'Ward 3', bandNumber: 'TB-004711' },
      tests: ['bloodGroup', 'crossmatch'],
    },
    plan: samplePlan([
      sampleTube('t1', 'edtaK2', { name: 'EDTA 6 mL', tests: ['bloodGroup', 'crossmatch'] }),
    ]),
  },
  without: (event) => 'tubeId' in event && event.tubeId !== 't1',
})

const request = {
  draft: {
    ...blankDraft(shippedSite),
    ...{ familyName: 'Featherstonehaugh-Cholmondeley', givenNames: 'Maximiliana Alexandra' },
    ...{ birthDate: '1980-02-29', recordNumber: 'MRN-0001234567890', orderNumber: 'ORD-77' },
    ...{ provider: 'Dr. Pat Placeholder', orderedAt: '2026-11-25T08:30', ward: 'Ward 3, bed 12' },
    tests: ['sodium', 'CBC', 'glucose', 'bloodGroup'],
  },
  plan: samplePlan([
    sampleTube('t1', 'citrate', { handling: ['ice', 'light'], timeLimit_min: 15 }),
    sampleTube('t2', 'activatorGel'),
    sampleTube('t3', 'edtaK2'),
  ]),
}

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await chromium.launch({ executablePath: needChromium(), args: ['--no-sandbox'] })
  page = await (await browser.newContext({ deviceScaleFactor: 3 })).newPage()
}, 60_000)

afterAll(async () => {
  await browser?.close()
})

async function pdf(name: string, html: string): Promise<{ pages: number; size: [number, number] }> {
  await page.setContent(html)
  const bytes = await page.pdf({ preferCSSPageSize: true, printBackground: true })
  if (keepIn) {
    mkdirSync(keepIn, { recursive: true })
    writeFileSync(`${keepIn}/${name}.pdf`, bytes)
    await page.emulateMedia({ media: 'print' })
    await page.screenshot({ path: `${keepIn}/${name}.png`, fullPage: true })
    await page.emulateMedia({ media: null })
  }
  const text = bytes.toString('latin1')
  const box = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/.exec(text)
  return {
    pages: [...text.matchAll(/\/Type\s*\/Page\b(?!s)/g)].length,
    size: [Number(box?.[1]), Number(box?.[2])],
  }
}

// Sizes in points: ISO 216 A4 210 x 297 mm; US letter 8.5 x 11 in; labels 2 x 1 in and 2 1/4 x 1 1/4 in.
const SIZES = {
  A4: [595.3, 841.9],
  letter: [612, 792],
  label: [144, 72],
  large: [162, 90],
} as const

function expectSize(size: [number, number], [width, height]: readonly [number, number]): void {
  expect(Math.abs(size[0] - width)).toBeLessThan(1.5)
  expect(Math.abs(size[1] - height)).toBeLessThan(1.5)
}

describe('printing', () => {
  it.each(['A4', 'letter'] as const)('prints the note on %s, buttons left out', async (paper) => {
    const { pages, size } = await pdf(`chart-${paper}`, chartPage(log, paper))
    expectSize(size, SIZES[paper])
    expect(pages).toBeGreaterThanOrEqual(1)
    expect(pages).toBeLessThanOrEqual(3)
    await page.emulateMedia({ media: 'print' })
    const shown = await page
      .locator('button, textarea, input')
      .evaluateAll(
        (all) => all.filter((element) => (element as HTMLElement).offsetParent !== null).length,
      )
    // CSS 2.2, 17.2: a table header group may be repeated on each page that the table spans; Chromium does so.
    const head = page.locator('.printHead')
    expect(await head.evaluate((box) => getComputedStyle(box).display)).toBe('table-header-group')
    const onHead = await head.innerText()
    const isSigned = await page.locator('.printSign').isVisible()
    const titles = await page.locator('.noteSection h3').allInnerTexts()
    await page.emulateMedia({ media: null })
    expect(shown).toBe(0)
    for (const text of ['Featherstonehaugh-Cholmondeley', '29 Feb 1980', 'MRN-0001234567890'])
      expect(onHead).toContain(text)
    expect(isSigned).toBe(true)
    expect(titles.indexOf('Deviations noted by the app')).toBe(2)
  })

  it.each(['A4', 'letter'] as const)('prints the request on one %s page', async (paper) => {
    const { pages, size } = await pdf(`request-${paper}`, planPage(paper, request))
    expectSize(size, SIZES[paper])
    expect(pages).toBe(1)
    await page.emulateMedia({ media: 'print' })
    const onPaper = await page.locator('body').innerText()
    const spills = await page.locator('.requestForm *').evaluateAll((parts) => {
      const box = document.querySelector('.requestForm')?.getBoundingClientRect()
      return parts
        .filter((part) => part.getBoundingClientRect().right > (box?.right ?? 0) + 0.5)
        .map((part) => part.textContent)
    })
    await page.emulateMedia({ media: null })
    expect(spills).toEqual([])
    for (const text of [
      'Featherstonehaugh-Cholmondeley, Maximiliana Alexandra',
      ...['29 Feb 1980', 'MRN-0001234567890', 'ORD-77', 'Dr. Pat Placeholder'],
      '25 Nov 2026 08:30',
      ...['Citrate tube', 'Serum gel tube', 'EDTA tube'],
      ...['Last dose', 'Collected by', 'Received by'],
    ])
      expect(onPaper).toContain(text)
    expect(onPaper).not.toContain('Start the draw')
    // In the order of draw.
    expect(onPaper.indexOf('Citrate tube')).toBeLessThan(onPaper.indexOf('EDTA tube'))
  })

  it.each([
    ['single', SIZES.label],
    ['large', SIZES.large],
  ] as const)('prints each label on a label of its own: %s', async (layout, wanted) => {
    for (const [name, of] of Object.entries({ log, crowded, cultures, transfusion })) {
      const { pages, size } = await pdf(`labels-${layout}-${name}`, labelsPage(of, 'A4', layout))
      expectSize(size, wanted)
      expect(pages).toBe(labelsFor(of).length)
    }
  })

  it.each(['A4', 'letter'] as const)('prints all labels on one plain %s sheet', async (paper) => {
    const { pages, size } = await pdf(`labels-${paper}`, labelsPage(log, paper, 'sheet'))
    expectSize(size, SIZES[paper])
    expect(pages).toBe(1)
  })

  it.each([
    ['single', log],
    ['large', log],
    ['sheet', log],
    ['single', crowded],
    ['large', crowded],
    ['single', cultures],
    ['large', cultures],
    ['single', transfusion],
    ['large', transfusion],
  ] as const)('keeps every word inside its label, uncut: %s', async (layout, of) => {
    await page.setContent(labelsPage(of, 'A4', layout))
    await page.emulateMedia({ media: 'print' })
    const spills = await page.locator('.tubeLabel').evaluateAll((labels) =>
      labels.flatMap((label) => {
        const box = label.getBoundingClientRect()
        return [...label.querySelectorAll('span, svg, strong')]
          .filter((part) => {
            const inner = part.getBoundingClientRect()
            const isCut = part.scrollWidth > part.clientWidth + 1 && part.matches('.right')
            return inner.right > box.right + 0.5 || inner.bottom > box.bottom + 0.5 || isCut
          })
          .map((part) => part.textContent)
      }),
    )
    await page.emulateMedia({ media: null })
    // Only a list of tests may end before its end.
    expect(spills.filter((text) => !text?.startsWith('test-'))).toEqual([])
  })

  it('draws bars that another library reads back from the picture', async () => {
    await page.setContent(labelsPage(log, 'A4', 'single'))
    const read: string[] = []
    for (const svg of await page.locator('.tubeLabel .barcode').all()) {
      const png = (await svg.screenshot()).toString('base64')
      const { gray, width, height } = await page.evaluate(async (data) => {
        const image = new Image()
        image.src = `data:image/png;base64,${data}`
        await image.decode()
        const canvas = document.createElement('canvas')
        canvas.width = image.width
        canvas.height = image.height
        const context = canvas.getContext('2d')!
        context.drawImage(image, 0, 0)
        const { data: rgba } = context.getImageData(0, 0, image.width, image.height)
        const gray = Array.from({ length: image.width * image.height }, (_, i) => rgba[i * 4]!)
        return { gray, width: image.width, height: image.height }
      }, png)
      read.push(decodeCode128(Uint8ClampedArray.from(gray), width, height))
    }
    expect(read).toEqual(labelsFor(log).map(({ specimenNumber }) => specimenNumber))
  })
})
