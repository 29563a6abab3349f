import { choicesFor, type Choice, type Choices } from './choices.ts'
import { binsOf, compareCost, splitComponents, type Cost } from './component.ts'
import { joinChoices, relaxedCost, type JoinLimits } from './joinChoices.ts'
import { packGreedily } from './packGreedily.ts'
import type { Effort } from './packing.ts'
import type { PackedTube, Packing, PackProblem } from './packProblem.ts'

/** Search steps allowed for one order; well above what 40 tests need. */
export const SEARCH_STEPS = 200_000

/**
 * The best set of tubes: fewest items left out, then fewest tubes, then the tests' preferences, then least blood, then
 * fewest kinds. Exact.
 *
 * Items fall into components that cannot share a tube. For each component, tube sets are tried by number and then by
 * blood. Components meet only in the stock, the blood allowed and the number of kinds, and are joined by branch and
 * bound: first each component's best sets alone. If that costs no more than the components taken each by itself, it
 * is the optimum; if not, they compete for scarce tubes and all their sets are joined.
 *
 * @returns `undefined` when nothing within `limits` exists.
 */
export function packTubes(
  problem: PackProblem,
  limits: JoinLimits = {},
  steps: number = SEARCH_STEPS,
): Packing | undefined {
  const effort: Effort = { left: steps }
  const { kinds } = problem
  const parts = splitComponents(problem).map((component) => choicesFor(component, kinds, effort))
  const relaxed = relaxedCost(parts, limits.most_uL)
  const outAtLeast = parts.reduce((sum, part) => sum + part.first().out, 0)
  if (!relaxed && effort.left > 0 && outAtLeast >= (limits.mostOut ?? Infinity)) return undefined
  let found = relaxed && joinChoices(parts, 'best', kinds, limits, undefined, effort)
  const optimal = found && relaxed && compareCost(found.cost, relaxed) === 0
  if (!optimal && effort.left > 0) {
    found = joinChoices(parts, 'all', kinds, limits, found, effort)
  }
  const proven = effort.left > 0
  const exact = found && assemble(parts, found.picks, found, proven)
  if (proven) return exact
  const quick = packGreedily(problem, limits.most_uL)
  if (quick && quick.cost.out > (limits.mostOut ?? Infinity)) return exact
  return exact && (!quick || compareCost(exact.cost, quick.cost) <= 0) ? exact : quick
}

/** Turns choices back into tubes with their items. */
function assemble(
  parts: readonly Choices[],
  picks: readonly Choice[],
  { cost, kinds }: { readonly cost: Cost; readonly kinds: number },
  proven: boolean,
): Packing {
  const tubes: PackedTube[] = []
  const out: number[] = []
  parts.forEach(({ component, holds }, p) => {
    const pick = picks[p]
    if (!pick) return
    const places = holds(pick.counts, pick.cost.out)?.places ?? component.items.map(() => -1)
    const pool = pick.uses.flatMap(({ kind, tubes: n }) => Array.from({ length: n }, () => kind))
    binsOf(component, pick.counts).forEach((bin, b) => {
      const size = component.sizes.find((s) => s.kinds[0] === bin.kind)
      const kind = pool.splice(
        pool.findIndex((k) => size?.kinds.includes(k)),
        1,
      )[0]
      const items = component.items.filter((_item, i) => places[i] === b)
      if (kind !== undefined && items.length > 0) tubes.push({ kind, items })
    })
    out.push(...component.items.filter((_item, i) => (places[i] ?? -1) < 0))
  })
  return { tubes, out: out.sort((a, b) => a - b), cost: { ...cost, kinds }, proven }
}
