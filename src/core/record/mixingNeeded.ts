import type { TubeFact } from './drawFacts.ts'

/** A tube with an additive and blood in it must be mixed. */
export function mixingNeeded({ tube, fill }: TubeFact): boolean {
  return tube.inversions.max > 0 && fill !== 'empty'
}
