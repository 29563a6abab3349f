import { plannedFill_mL } from '../plan/plan.ts'
import type { TubeFact } from './drawFacts.ts'

/**
 * Nobody read how much is in it: it was said to be full, and a person stops it at a mark. A vacuum stops by itself at
 * the volume on the label; a culture bottle does not stop at all.
 */
export function isAssumed({ tube, fill, estimate_mL }: TubeFact): boolean {
  const byHand = tube.fillsBy === 'mark' || tube.role === 'culture'
  return byHand && fill === 'full' && estimate_mL === undefined
}

/** Blood in one tube, mL; `undefined` when it is not known. */
export function tubeVolume_mL(tube: TubeFact): number | undefined {
  if (tube.fill === 'full') return tube.estimate_mL ?? plannedFill_mL(tube.tube)
  if (tube.fill === 'empty') return 0
  return tube.estimate_mL
}
