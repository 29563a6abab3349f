import { norm, type Norms } from '../catalogue/norms.ts'
import type { Plan, PlannedTube } from './plan.ts'

/**
 * Predicted time under the band: from band on to blood in the line, then every tube's filling and the change between
 * tubes. `offDuring` is the first tube that, filling slowly, would still be on when the limit is reached: the band has
 * to be off by then. `undefined` when even slow filling ends within the limit; then it comes off as blood flows.
 * @param limit_s the policy's `bandLimit_s`.
 */
export function bandForecast(
  tubes: readonly Pick<PlannedTube, 'id' | 'fill'>[],
  norms: Norms,
  limit_s: number,
): Plan['band'] {
  const start_s = norm(norms, 'bandToFlash_s')
  const change_s = norm(norms, 'tubeChange_s')
  let expected_s = start_s
  let late_s = start_s
  let offDuring: string | undefined
  for (const tube of tubes) {
    expected_s += change_s + tube.fill.expected_s
    late_s += change_s + tube.fill.late_s
    if (late_s > limit_s) offDuring ??= tube.id
  }
  return { predicted_s: tubes.length === 0 ? 0 : Math.round(expected_s), offDuring }
}
