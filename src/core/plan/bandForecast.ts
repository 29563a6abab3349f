import { norm, type Norms } from '../catalogue/norms.ts'
import type { Plan, PlannedTube } from './plan.ts'

/**
 * Predicted time under the band: from band on to blood in the line, then the filling of the first tube
 * that has to be full. It comes off
 * during the first tube, as blood enters it ("as soon as blood flow is established, that is, once blood begins to fill
 * the first tube": training pages that summarize CLSI).
 */
export function bandForecast(
  tubes: readonly Pick<PlannedTube, 'id' | 'role' | 'fill'>[],
  norms: Norms,
): Plan['band'] {
  const first = tubes.find(({ role }) => role !== 'discard')
  const start_s = norm(norms, 'bandToFlash_s') + norm(norms, 'tubeChange_s')
  return {
    predicted_s: first ? Math.round(start_s + first.fill.expected_s) : 0,
    offDuring: tubes[0]?.id,
  }
}
