/** Our own sign: a graduated dial with a hand at rest. All lengths in units of a field 64 wide and high. */
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

const at = (deg: number, radius: number): readonly [number, number] => {
  const rad = (deg * Math.PI) / 180
  return [MIDDLE + radius * Math.sin(rad), MIDDLE - radius * Math.cos(rad)]
}

/** @param radius of the dial's edge, units */
export function dial(radius: number): readonly Stroke[] {
  const unit = radius / 23
  const ticks = Array.from({ length: 12 }, (_, i): Stroke => {
    const inner = i % 3 === 0 ? 14 : 16
    const [from, to] = [at(i * 30, 19 * unit), at(i * 30, inner * unit)]
    return { kind: 'line', from, to, width: 2.2 * unit }
  })
  return [
    { kind: 'circle', radius, width: 2.5 * unit },
    ...ticks,
    { kind: 'line', from: at(270, 8 * unit), to: at(90, 9.5 * unit), width: 4 * unit },
    { kind: 'line', from: [MIDDLE, MIDDLE], to: [MIDDLE, MIDDLE], width: 8 * unit },
  ]
}
