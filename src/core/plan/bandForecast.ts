import { norm, type Norms } from '../catalogue/norms.ts'
import type { Plan, PlannedTube } from './plan.ts'

/**
 * Predicted time from band on to the last tube full, if the band stayed on all the while, and the tube during which it
 * comes off: the first, as blood enters it ("as soon as blood flow is established, that is, once blood begins to fill
 * the first tube": training pages that summarize CLSI).
 */
export function bandForecast(
  tubes: readonly Pick<PlannedTube, 'id' | 'fill'>[],
  norms: Norms,
): Plan['band'] {
  const change_s = norm(norms, 'tubeChange_s')
  const all_s = tubes.reduce((sum, { fill }) => sum + change_s + fill.expected_s, 0)
  const predicted_s = tubes.length === 0 ? 0 : Math.round(norm(norms, 'bandToFlash_s') + all_s)
  return { predicted_s, offDuring: tubes[0]?.id }
}
