import { Code128Reader } from '@zxing/library'
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { code128, QUIET_MODULES, type BarcodeModel } from '../../../src/app/record/code128.ts'
import { Barcode } from '../../../src/ui/labels/Barcode.tsx'
import { decodeCode128 } from '../../support/decodeCode128.ts'

/** Paints the rectangles of the rendered SVG, three dots to a module. */
function raster(text: string): { gray: Uint8ClampedArray; width: number; height: number } {
  const svg = renderToStaticMarkup(createElement(Barcode, { barcode: code128(text), name: text }))
  const width = Number(/viewBox="0 0 (\d+) 10"/.exec(svg)?.[1]) * 3
  const height = 30
  const gray = new Uint8ClampedArray(width * height).fill(255)
  for (const [, x, w] of svg.matchAll(
    /<rect x="(\d+)" y="0" width="(\d+)" height="10" fill="#000"/g,
  )) {
    for (let row = 0; row < height; row += 1) {
      gray.fill(0, row * width + Number(x) * 3, row * width + (Number(x) + Number(w)) * 3)
    }
  }
  return { gray, width, height }
}

const decode = (text: string): string => {
  const { gray, width, height } = raster(text)
  return decodeCode128(gray, width, height)
}

/** The bars of a symbol as runs of modules, dark first. */
function runs({ bars, modules }: BarcodeModel): number[] {
  return bars.flatMap(({ x, width }, index) => {
    const next = bars[index + 1]?.x ?? modules
    return next > x + width ? [width, next - x - width] : [width]
  })
}

/** The check symbol as runs: the last but one, before the stop symbol of seven runs. */
const checkRuns = (text: string): string => runs(code128(text)).slice(-13, -7).join('')

/** Bars and spaces by symbol value, from the decoding library's own table. */
const { CODE_PATTERNS } = Code128Reader as unknown as {
  readonly CODE_PATTERNS: readonly Int32Array[]
}
const patternOf = (value: number): string => [...(CODE_PATTERNS[value] ?? [])].join('')

describe('code128', () => {
  it.each(['D7261125000302', 'AB2326112500Z912', 'odd-01', 'A', '345678', 'S26-000123'])(
    'is read back by another library: %s',
    (text) => {
      expect(decode(text)).toBe(text)
    },
  )

  it('is read back for any number a device can make', () => {
    const number = fc.stringMatching(/^[A-Z][A-Z0-9]{0,3}[0-9]{6}[0-9A-Z]{4}[0-9]{2}$/)
    fc.assert(
      fc.property(number, (text) => {
        expect(decode(text)).toBe(text)
      }),
      { numRuns: 60 },
    )
  })

  it.each([
    // Published check digits: Barcode Island and Barcode Resource, pages on Code 128.
    ['abcdef', 97],
    ['345678', 73],
    // Published as 67 and 42 with the start of set A; the encoder takes set B, whose start counts one more.
    ['HI345678', 67 + 1],
    ['ABCDEF', 42 + 1],
  ])('%s has the check digit %i', (text, check) => {
    expect(checkRuns(text)).toBe(patternOf(check))
  })

  it('leaves ten light modules on either side and fits a 2 inch label', () => {
    const barcode = code128('AB23261125000399')
    const svg = renderToStaticMarkup(createElement(Barcode, { barcode, name: 'x' }))
    const width_mm = Number(/ width="([\d.]+)mm"/.exec(svg)?.[1])
    expect(width_mm).toBeLessThan(47.8)
    // A quarter of a millimeter to a module: nothing had to be squeezed.
    expect(width_mm / (barcode.modules + 2 * QUIET_MODULES)).toBeCloseTo(0.25, 3)
    expect(QUIET_MODULES).toBe(10)
  })

  it.each(['', 'é', 'a\nb', '採血'])('refuses %j', (text) => {
    expect(() => code128(text)).toThrow(RangeError)
  })
})
