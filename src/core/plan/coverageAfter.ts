import { defined } from '../basics/defined.ts'
import { fillText } from '../basics/fillText.ts'
import { plannedFill_mL, type Fill, type Plan, type PlannedTube } from './plan.ts'
import type { PlanTexts } from './planTexts.ts'
import { mL, named } from './planWords.ts'

/** What became of a tube that was on the holder. `estimate_mL` of a short one by the collector's eye. */
export interface DrawnTube {
  readonly id: string
  readonly fill: Fill
  readonly estimate_mL?: number
}

export interface Coverage {
  /** Tests that what is in the rack now serves. */
  readonly covered: readonly string[]
  /** Tests of the plan that it does not serve, each with the reason. */
  readonly lost: readonly { readonly test: string; readonly reason: string }[]
  /** The waiting tube to try next if flow allows only one more. */
  readonly tryNext?: {
    readonly tubeId: string
    readonly reason: string
    /** Waiting tubes of an earlier place in the order of draw. */
    readonly passesOver: readonly string[]
  }
}

/**
 * What is still covered when flow stops after the drawn tubes.
 * A short tube below its least fill counts for nothing, nor does one whose volume nobody estimated: the laboratory may
 * accept it, but nobody should count on that. Above its least fill, tests with the smallest needs are served first.
 */
export function coverageAfter(plan: Plan, drawn: readonly DrawnTube[], texts: PlanTexts): Coverage {
  const served = new Set<string>()
  const lost: { test: string; reason: string }[] = []
  for (const tube of plan.tubes) {
    const fact = drawn.find(({ id }) => id === tube.id)
    const kept = fact ? testsServed(tube, fact) : []
    kept.forEach((test) => served.add(test))
    for (const test of tube.tests.filter((code) => !kept.includes(code))) {
      lost.push({ test, reason: whyLost(tube, fact, texts) })
    }
  }
  return defined({
    covered: [...served],
    lost: [...lost.filter(({ test }) => !served.has(test)), ...plan.uncovered],
    tryNext: bestWaiting(plan, drawn, texts),
  })
}

/** The tests that the drawn tubes serve. */
export function testsCovered(plan: Plan, drawn: readonly DrawnTube[]): ReadonlySet<string> {
  return new Set(
    plan.tubes.flatMap((tube) => {
      const fact = drawn.find(({ id }) => id === tube.id)
      return fact ? testsServed(tube, fact) : []
    }),
  )
}

/** The tests of a tube that its real fill serves; as many as possible. */
export function testsServed(tube: PlannedTube, { fill, estimate_mL }: DrawnTube): string[] {
  if (fill === 'full') return [...tube.tests]
  if (fill === 'empty' || estimate_mL === undefined || estimate_mL < tube.least_mL) return []
  const bySize = tube.tests
    .map((test, i) => ({ test, need: tube.needs_mL?.[i] ?? plannedFill_mL(tube) }))
    .sort((a, b) => a.need - b.need)
  let left = estimate_mL - (tube.dead_mL ?? 0) + 1e-9
  return bySize.flatMap(({ test, need }) => {
    left -= need
    return left >= 0 ? [test] : []
  })
}

function whyLost(
  { name: tube }: PlannedTube,
  fact: DrawnTube | undefined,
  { coverage }: PlanTexts,
): string {
  if (!fact) return fillText(coverage.notDrawn, { tube })
  if (fact.fill === 'empty') return fillText(coverage.empty, { tube })
  if (fact.estimate_mL === undefined) return fillText(coverage.volumeUnknown, { tube })
  return fillText(coverage.tooLittle, { tube, estimate_mL: mL(fact.estimate_mL) })
}

/** The waiting tube that serves most tests; of equals the smaller, then the one that comes first. */
function bestWaiting(
  plan: Plan,
  drawn: readonly DrawnTube[],
  texts: PlanTexts,
): Coverage['tryNext'] {
  const isDrawn = new Set(drawn.map(({ id }) => id))
  const waiting = plan.tubes.filter((tube) => !isDrawn.has(tube.id) && tube.role !== 'discard')
  const best = [...waiting].sort(
    (a, b) => b.tests.length - a.tests.length || plannedFill_mL(a) - plannedFill_mL(b),
  )[0]
  if (!best) return undefined
  const skipped = waiting.slice(0, waiting.indexOf(best))
  const { coverage, language } = texts
  const reasons = [
    fillText(
      coverage.tryNext,
      { tube: best.name, nominal_mL: mL(plannedFill_mL(best)), n: best.tests.length },
      language,
    ),
    ...(skipped.length === 0
      ? []
      : [
          fillText(coverage.passesOver, {
            tubes: named(
              skipped.map((tube) => tube.name),
              texts,
            ),
          }),
        ]),
  ]
  return {
    tubeId: best.id,
    reason: reasons.join(' '),
    passesOver: skipped.map((tube) => tube.id),
  }
}
