import { defined } from '../basics/defined.ts'
import { sittingsOf, type Sitting } from '../series/sittings.ts'
import { planDraw, planFrom } from './planDraw.ts'
import type { Plan } from './plan.ts'
import type { PlanInput } from './planInput.ts'
import { withoutUsed } from './replan.ts'

/** One draw of an order with its own rack. */
export interface PlannedSitting extends Sitting {
  readonly plan: Plan
}

/**
 * A plan for every sitting of an order, the first at once. No tube serves two sittings, each has a needle of its own,
 * and the limits for blood hold for all of them together.
 */
export function planSittings(input: PlanInput): readonly [PlannedSitting, ...PlannedSitting[]] {
  const [first, ...later] = sittingsOf(input.order.tests, input.catalogue)
  const planned: [PlannedSitting, ...PlannedSitting[]] = [plannedAfter(input, first, [])]
  for (const sitting of later) planned.push(plannedAfter(input, sitting, planned))
  return planned
}

function plannedAfter(
  input: PlanInput,
  sitting: Sitting,
  before: readonly PlannedSitting[],
): PlannedSitting {
  const plans = before.map(({ plan }) => plan)
  const before_mL = plans.reduce((sum, { blood }) => sum + blood.draw_mL, 0)
  const stock = withoutUsed(
    input,
    plans.flatMap(({ tubes }) => tubes),
  )
  const order = { ...input.order, tests: sitting.tests }
  return { ...sitting, plan: planAfter({ ...input, order, stock }, before_mL) }
}

/**
 * The plan of one draw of a series in which blood was taken before. That blood counts against every limit, and is told
 * as taken earlier.
 */
export function planAfter(input: PlanInput, before_mL: number): Plan {
  if (before_mL === 0) return planDraw(input)
  const plan = planFrom(input, {
    nextNumber: 1,
    linePrimed: false,
    drawn: [],
    drawn_mL: before_mL,
  })
  const { blood } = plan
  const draw_mL = round2(blood.draw_mL - before_mL)
  const earlier_mL = blood.earlier_mL + before_mL
  const left_mL = blood.limit_mL === undefined ? undefined : blood.limit_mL - before_mL
  const limit_mL = left_mL === undefined ? undefined : round2(Math.max(0, left_mL))
  return { ...plan, blood: defined({ ...blood, draw_mL, earlier_mL, limit_mL }) }
}

const round2 = (value: number): number => Math.round(value * 100) / 100
