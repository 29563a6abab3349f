import { readFileSync } from 'node:fs'
import { inflateSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { dial, GROUND, INK } from '../../scripts/icons/dial.ts'
import { ICONS, SAFE_RADIUS, SVG } from '../../scripts/icons/icons.ts'
import { toPixels } from '../../scripts/icons/toPixels.ts'
import { toSvg } from '../../scripts/icons/toSvg.ts'
import { offline } from '../../scripts/build/offline.ts'

const root = new URL('../../', import.meta.url)
const read = (name: string): Buffer => readFileSync(new URL(`public/icons/${name}`, root))

/** Reads a PNG back (ISO/IEC 15948) as far as ours go: 8 bits a channel with alpha, rows unfiltered. */
function pixelsOf(png: Buffer): { readonly size: number; readonly pixels: Buffer } {
  expect(png.subarray(1, 4).toString('latin1')).toBe('PNG')
  const size = png.readUInt32BE(16)
  expect([png.readUInt32BE(20), ...png.subarray(24, 29)]).toEqual([size, 8, 6, 0, 0, 0])
  const length = png.readUInt32BE(33)
  const rows = inflateSync(png.subarray(41, 41 + length))
  const pixels = Buffer.alloc(size * size * 4)
  for (let row = 0; row < size; row++) {
    const from = row * (size * 4 + 1)
    expect(rows[from]).toBe(0)
    rows.copy(pixels, row * size * 4, from + 1, from + 1 + size * 4)
  }
  return { size, pixels }
}

/** The color of a point, from its hex letters. */
const rgb = (hex: string): number[] => [...Buffer.from(hex.slice(1), 'hex')]

describe('the icons', () => {
  it.each(ICONS)('$name is the drawing at that size', ({ name, size, radius, corner }) => {
    const { size: found, pixels } = pixelsOf(read(name))
    expect(found).toBe(size)
    expect(Buffer.compare(pixels, Buffer.from(toPixels(dial(radius), corner, size)))).toBe(0)
  })

  it('have the same drawing as an SVG', () => {
    expect(read(SVG.name).toString()).toBe(toSvg(dial(SVG.radius), SVG.corner))
  })

  it('show the hand at rest in ink on the ground', () => {
    const { size, pixels } = pixelsOf(read('mark-512.png'))
    const at = (x: number, y: number): number[] => [
      ...pixels.subarray((Math.round(y * size) * size + Math.round(x * size)) * 4).subarray(0, 4),
    ]
    // Along the needle, which is tilted, and level with the middle, where the hand of a clock would be.
    const [end, point] = [dial(23).at(-1), dial(23).at(-2)]
    if (end?.kind !== 'line' || point?.kind !== 'line')
      throw new Error('The needle is not drawn last.')
    expect(at(end.from[0] / 64, end.from[1] / 64)).toEqual([...rgb(INK), 255])
    expect(at(point.to[0] / 64, point.to[1] / 64)).toEqual([...rgb(INK), 255])
    expect(point.from[1] - point.to[1]).toBeGreaterThan(8)
    expect(at(0.5, 0.35)).toEqual([...rgb(GROUND), 255])
    expect(at(0.8, 0.5)).toEqual([...rgb(GROUND), 255])
    // The corners are round.
    expect(at(0, 0)[3]).toBe(0)
  })

  it.each(ICONS.filter(({ name }) => name.startsWith('mask')))(
    'may be cut to any shape: $name',
    ({ name }) => {
      const { size, pixels } = pixelsOf(read(name))
      let farthest = 0
      for (let i = 0; i < size * size; i++) {
        const [r, g, b, alpha] = pixels.subarray(i * 4, i * 4 + 4)
        expect(alpha).toBe(255)
        if (Buffer.from([r ?? 0, g ?? 0, b ?? 0]).toString('hex') === GROUND.slice(1)) continue
        const [x, y] = [(i % size) + 0.5, Math.floor(i / size) + 0.5]
        farthest = Math.max(farthest, Math.hypot(x / size - 0.5, y / size - 0.5))
      }
      expect(farthest).toBeGreaterThan(0.3)
      expect(farthest).toBeLessThanOrEqual(SAFE_RADIUS)
    },
  )
})

describe('the manifest', () => {
  const { manifest } = offline(new URL('.', root).pathname, [])
  const icons = (manifest && manifest.icons) || []

  it('names icons that are there, in the size it says', () => {
    for (const { src, sizes, type } of icons) {
      const file = read(src.replace('/icons/', ''))
      if (type === 'image/png')
        expect(`${file.readUInt32BE(16)}x${file.readUInt32BE(20)}`).toBe(sizes)
      else expect(file.toString()).toContain('<svg')
    }
  })

  it('has an icon of 192 and 512 px for every purpose that systems ask for', () => {
    const png = icons.filter(({ type }) => type === 'image/png')
    const of = (purpose: string) =>
      png.filter((icon) => icon.purpose === purpose).map(({ sizes }) => sizes)
    expect(of('any')).toEqual(['192x192', '512x512'])
    expect(of('maskable')).toEqual(['192x192', '512x512'])
  })
})
