import type { DrawnTube } from '../core/plan/coverageAfter.ts'
import { coverageAfter } from '../core/plan/coverageAfter.ts'
import type { Plan } from '../core/plan/plan.ts'
import { replan } from '../core/plan/replan.ts'
import type { DrawState } from '../core/protocol/state.ts'
import type { SiteData } from './siteData.ts'

/** What is really in the rack: every tube that came off the holder, as full as it was said to be. */
export function drawnTubes(s: DrawState): readonly DrawnTube[] {
  return s.tubes.flatMap(({ id, off, fill, estimate_mL }) =>
    off && fill ? [{ id, fill, ...(estimate_mL === undefined ? {} : { estimate_mL }) }] : [],
  )
}

/**
 * The plan for a further needle, from what is really in the rack; `undefined` where it cannot be made, so that the old
 * plan goes on and nothing is dropped without a word.
 */
export function planAgain(s: DrawState, site: SiteData, today: string): Plan | undefined {
  const { opened, plan } = s
  if (!opened || !plan) return undefined
  const { order, patient, preparation, needleSet, policy } = opened
  const { catalogue, stock, bloodLimits } = site
  const input = { order, patient, preparation, needleSet, policy, catalogue, stock, bloodLimits, today } // prettier-ignore
  const idsGiven = opened.plan.tubes.map(({ id }) => id)
  const next = replan(input, plan, drawnTubes(s), { newPuncture: true, idsGiven })
  return next.problems.length > 0 ? undefined : next
}

/** For the step that asks whether to try again: what the rack already serves and what it does not, in words. */
export function coverageLines(s: DrawState, testName: (code: string) => string): readonly string[] {
  if (!s.plan) return []
  const { covered, lost, tryNext } = coverageAfter(s.plan, drawnTubes(s))
  const names = (codes: readonly string[]): string => codes.map(testName).join(', ')
  const next = tryNext && s.plan.tubes.find(({ id }) => id === tryNext.tubeId)
  return [
    ...(covered.length > 0 ? [`Covered: ${names(covered)}`] : []),
    ...(lost.length > 0 ? [`Missing: ${names(lost.map(({ test }) => test))}`] : []),
    ...(next ? [`Try first: ${next.name}`] : []),
  ]
}
