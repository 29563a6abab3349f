import { FIELD, GROUND, INK, type Stroke } from './dial.ts'

const MIDDLE = FIELD / 2

/** How far a point lies outside a stroke; negative inside. Units. */
function outside(stroke: Stroke, x: number, y: number): number {
  if (stroke.kind === 'circle') {
    return Math.abs(Math.hypot(x - MIDDLE, y - MIDDLE) - stroke.radius) - stroke.width / 2
  }
  const { from, to, width } = stroke
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]]
  const long = dx * dx + dy * dy
  const along = long === 0 ? 0 : ((x - from[0]) * dx + (y - from[1]) * dy) / long
  const t = Math.min(1, Math.max(0, along))
  return Math.hypot(x - from[0] - t * dx, y - from[1] - t * dy) - width / 2
}

/** The same for the ground, a square with round corners. */
function outsideGround(corner: number, x: number, y: number): number {
  const reach = MIDDLE - corner
  const dx = Math.max(0, Math.abs(x - MIDDLE) - reach)
  const dy = Math.max(0, Math.abs(y - MIDDLE) - reach)
  return Math.hypot(dx, dy) - corner
}

const rgb = (hex: string): readonly number[] =>
  [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16))

/**
 * The drawing as `size` x `size` pixels, four bytes each (red, green, blue, alpha). Edges are smoothed over one pixel.
 * @param corner radius of the ground's corners, units; 0 fills the square
 */
export function toPixels(strokes: readonly Stroke[], corner: number, size: number): Uint8Array {
  const pixels = new Uint8Array(size * size * 4)
  const unit_px = size / FIELD
  const [ground, ink] = [rgb(GROUND), rgb(INK)]
  const cover = (out: number): number => Math.min(1, Math.max(0, 0.5 - out * unit_px))
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      const [x, y] = [(column + 0.5) / unit_px, (row + 0.5) / unit_px]
      const inked = cover(Math.min(...strokes.map((stroke) => outside(stroke, x, y))))
      const grounded = corner === 0 ? 1 : cover(outsideGround(corner, x, y))
      const mixed = ground.map((g, i) => Math.round(g + ((ink[i] ?? 0) - g) * inked))
      pixels.set([...mixed, Math.round(255 * grounded)], (row * size + column) * 4)
    }
  }
  return pixels
}
