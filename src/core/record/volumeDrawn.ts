import { plannedFill_mL } from '../plan/plan.ts'
import type { TubeFact } from './drawFacts.ts'

/** Blood in one tube, mL; `undefined` when it is not known. */
export function tubeVolume_mL(tube: TubeFact): number | undefined {
  if (tube.fill === 'full') return tube.estimate_mL ?? plannedFill_mL(tube.tube)
  if (tube.fill === 'empty') return 0
  return tube.estimate_mL
}
