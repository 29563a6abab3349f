/** How the tubes lie in a rotor: hanging, and swung out level as it turns, or fixed at a slant. */
export const ROTOR_ANGLES = ['swing', 'fixed'] as const
export type RotorAngle = (typeof ROTOR_ANGLES)[number]

/** A rotor of the site. */
export interface Rotor {
  readonly places: number
  /** From the axle to the bottom of a tube as it turns, the largest radius, mm: makers give the force there. */
  readonly radius_mm: number
  readonly angle: RotorAngle
  readonly most_rpm: number
}

/** Standard gravity, mm/s² (CGPM 1901). */
const GRAVITY_mm_s2 = 9806.65
/** Force of one turn a minute at one millimeter, in g: (2π/60)² / gravity, 1.11824e-6. */
const OF_ONE = (2 * Math.PI) ** 2 / 3600 / GRAVITY_mm_s2

/** Relative centrifugal force, in g, at a radius. */
export function rcf(radius_mm: number, rpm: number): number {
  return OF_ONE * radius_mm * rpm ** 2
}

/** Turns a minute that give a force at a radius. */
export function rpmFor(radius_mm: number, g: number): number {
  return Math.sqrt(g / (OF_ONE * radius_mm))
}
