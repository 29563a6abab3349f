/**
 * Our own sign: a needle at rest above a ruler, tilted within a ring, so that it is no clock.
 * All lengths in units of a field 64 wide and high.
 */
export const FIELD = 64
export const GROUND = '#1b2420'
export const INK = '#f3efe6'

/** A line with round ends, or with equal ends a dot; a circle is drawn along its edge. */
export type Stroke =
  | {
      readonly kind: 'line'
      readonly from: readonly [x: number, y: number]
      readonly to: readonly [x: number, y: number]
      readonly width: number
    }
  | { readonly kind: 'circle'; readonly radius: number; readonly width: number }

const MIDDLE = FIELD / 2

/** How the needle and its ruler lie, from the level, turned to the left. */
const TILT_deg = 32

/** A point of the level drawing around the middle, turned by the tilt. */
const turned = (x: number, y: number): readonly [number, number] => {
  const rad = (TILT_deg * Math.PI) / 180
  return [
    MIDDLE + x * Math.cos(rad) + y * Math.sin(rad),
    MIDDLE - x * Math.sin(rad) + y * Math.cos(rad),
  ]
}

/** @param radius of the ring, units */
export function dial(radius: number): readonly Stroke[] {
  const unit = radius / 23
  const line = (x1: number, y1: number, x2: number, y2: number, width: number): Stroke => ({
    kind: 'line',
    from: turned(x1 * unit, y1 * unit),
    to: turned(x2 * unit, y2 * unit),
    width: width * unit,
  })
  const ticks = [-12, -8, -4, 0, 4, 8, 12].map((x, i) => line(x, 6, x, i % 3 === 0 ? 12 : 9.5, 2))
  return [
    { kind: 'circle', radius, width: 2.5 * unit },
    line(-15, 6, 15, 6, 2),
    ...ticks,
    line(-11, -2, 15, -2, 4),
    line(-11, -2, -11, -2, 8),
  ]
}
