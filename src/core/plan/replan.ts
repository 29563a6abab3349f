import { defined } from '../basics/defined.ts'
import type { Text } from '../basics/fillText.ts'
import { compareDraw, drawGroupIndex } from '../catalogue/orderOfDraw.ts'
import { testsCovered, testsServed, type DrawnTube } from './coverageAfter.ts'
import { plannedFill_mL, type Plan, type PlannedTube, type PlanNotice } from './plan.ts'
import { planFrom } from './planDraw.ts'
import type { PlanInput } from './planInput.ts'
import { notice } from './planWords.ts'

export interface ReplanOptions {
  /** A new needle: the line is empty again and the order of draw starts afresh. */
  readonly newPuncture: boolean
  /** Ids of earlier plans of the same draw that `plan` no longer names; none of them is given again. */
  readonly idsGiven?: readonly string[]
}

/**
 * The plan for what is still missing, from what is really in the rack.
 * Tubes that were on the holder stay at the head of the plan under their ids, serving only what their fill serves;
 * tubes still waiting are planned anew. New ids go on from the highest ever given, so none is used twice.
 * @param input as for the first plan; its stock is what was on hand then, and the drawn tubes are taken off it here.
 */
export function replan(
  input: PlanInput,
  plan: Plan,
  drawn: readonly DrawnTube[],
  { newPuncture, idsGiven = [] }: ReplanOptions,
): Plan {
  const kept = plan.tubes.flatMap((tube) => {
    const fact = drawn.find(({ id }) => id === tube.id)
    return fact ? [{ tube, fact }] : []
  })
  const tubes = kept.map(({ tube, fact }) => withTests(tube, testsServed(tube, fact)))
  const covered = testsCovered(plan, drawn)
  const tests = input.order.tests.filter((test) => !covered.has(test))
  const drawn_mL = kept.reduce((sum, { tube, fact }) => sum + taken_mL(tube, fact), 0)
  if (tests.length === 0) {
    return {
      ...plan,
      tubes,
      problems: [],
      warnings: [],
      uncovered: [],
      band: { predicted_s: 0, offDuring: undefined },
    }
  }
  const next = planFrom(
    { ...input, order: { ...input.order, tests }, stock: withoutUsed(input, tubes) },
    {
      nextNumber: highestNumber([...plan.tubes.map(({ id }) => id), ...idsGiven]) + 1,
      linePrimed: !newPuncture,
      drawn: tubes,
      drawn_mL,
    },
  )
  const warning = newPuncture
    ? undefined
    : brokenOrder(tubes, next.tubes.slice(tubes.length), input.texts.plan.notices.orderBroken)
  return warning ? { ...next, warnings: [...next.warnings, warning] } : next
}

function withTests(tube: PlannedTube, tests: readonly string[]): PlannedTube {
  const needs = tests.map((test) => tube.needs_mL?.[tube.tests.indexOf(test)] ?? 0)
  return defined({ ...tube, tests, needs_mL: tube.needs_mL && needs })
}

/** Blood that went into a tube; a short one of unknown volume counts in full, to stay on the safe side of the limit. */
function taken_mL(tube: PlannedTube, { fill, estimate_mL }: DrawnTube): number {
  if (fill === 'empty') return 0
  return fill === 'short' ? (estimate_mL ?? plannedFill_mL(tube)) : plannedFill_mL(tube)
}

/** The stock without the planned tubes. */
export function withoutUsed(
  { stock }: Pick<PlanInput, 'stock'>,
  used: readonly PlannedTube[],
): PlanInput['stock'] {
  return stock?.map((lot) => {
    const gone = used.filter(
      (tube) => tube.tubeCode === lot.tubeCode && tube.lot === lot.lot,
    ).length
    return { ...lot, count: Math.max(0, lot.count - gone) }
  })
}

function highestNumber(ids: readonly string[]): number {
  return Math.max(0, ...ids.map((id) => Number(id.replace(/^\D+/, '')) || 0))
}

/** Through the same needle a tube of an earlier group would follow a later one. */
function brokenOrder(
  before: readonly PlannedTube[],
  after: readonly PlannedTube[],
  text: Text,
): PlanNotice | undefined {
  const last = [...before].sort((a, b) => compareDraw(a.additive, b.additive)).at(-1)
  const early =
    last && after.find((t) => drawGroupIndex(t.additive) < drawGroupIndex(last.additive))
  if (!last || !early) return undefined
  return notice(
    'orderBroken',
    text,
    { early: early.name, last: last.name },
    'WHO guidelines on drawing blood 2010, Table 2.3, as condensed in training pages',
  )
}
