import { coverageAfter } from '../../core/plan/coverageAfter.ts'
import type { PlanTexts } from '../../core/plan/planTexts.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { drawnTubes } from '../../core/protocol/drawnTubes.ts'

/** For the step that asks whether to try again: what the rack already serves and what it does not, in words. */
export function coverageLines(
  s: DrawState,
  testName: (code: string) => string,
  texts: PlanTexts,
): readonly string[] {
  const { covered, lost, tryNext } = coverageAfter(s.plan, drawnTubes(s), texts)
  const names = (codes: readonly string[]): string => codes.map(testName).join(', ')
  const next = tryNext && s.plan.tubes.find(({ id }) => id === tryNext.tubeId)
  return [
    ...(covered.length > 0 ? [`Covered: ${names(covered)}`] : []),
    ...(lost.length > 0 ? [`Missing: ${names(lost.map(({ test }) => test))}`] : []),
    ...(next ? [`Try first: ${next.name}`] : []),
    ...(tryNext && tryNext.passesOver.length > 0 ? [tryNext.reason] : []),
  ]
}
