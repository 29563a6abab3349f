import type { Approval, DecisionSubject } from '../order/order.ts'
import type { Plan, PlanNotice } from './plan.ts'

/** What a named provider may decide, by the stop of a plan. A stop that is not here must be put right in the order. */
const SUBJECT_OF: Readonly<Partial<Record<string, DecisionSubject>>> = {
  weightMissing: 'volumeLimit',
  overLimit: 'volumeLimit',
  bothArms: 'bothArms',
  uncovered: 'missingTube',
  noDiscardTube: 'missingTube',
}

export interface StopToDecide {
  readonly about: DecisionSubject
  readonly stops: readonly PlanNotice[]
}

/** The stops of a plan that a provider may decide, put together by what they are about. */
export function stopsToDecide({ problems }: Pick<Plan, 'problems'>): readonly StopToDecide[] {
  const about = [...new Set(problems.flatMap(({ code }) => SUBJECT_OF[code] ?? []))]
  return about.map((subject) => ({
    about: subject,
    stops: problems.filter(({ code }) => SUBJECT_OF[code] === subject),
  }))
}

/** The stops that nobody can decide: the order itself has to be put right. */
export function stopsForGood({ problems }: Pick<Plan, 'problems'>): readonly PlanNotice[] {
  return problems.filter(({ code }) => SUBJECT_OF[code] === undefined)
}

/** Whether a draw may open on a plan: there is something to draw and every stop has been decided by somebody named. */
export function mayOpen(
  plan: Pick<Plan, 'tubes' | 'problems'>,
  approvals: readonly Approval[],
): boolean {
  return (
    plan.tubes.length > 0 &&
    stopsForGood(plan).length === 0 &&
    stopsToDecide(plan).every(({ about }) => approvals.some((given) => given.about === about))
  )
}
