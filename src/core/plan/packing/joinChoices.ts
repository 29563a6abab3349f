import { addCost, compareCost, NO_COST, type Cost, type Kind } from './component.ts'
import type { Choice, Choices } from './choices.ts'
import type { Effort } from './packing.ts'

/** One choice for every component, index for index. */
export interface Joined {
  readonly picks: readonly Choice[]
  readonly cost: Cost
  readonly kinds: number
}

export interface JoinLimits {
  readonly most_uL?: number | undefined
  readonly mostOut?: number | undefined
}

/**
 * Picks one choice for every component so that stock and blood suffice, cheapest first, then fewest kinds.
 * Branch and bound: the bound is the cheapest choice of every component still open, taken by itself.
 */
export function joinChoices(
  parts: readonly Choices[],
  mode: 'best' | 'all',
  kinds: readonly Kind[],
  limits: JoinLimits,
  start: Joined | undefined,
  effort: Effort,
): Joined | undefined {
  const onlyFirst = mode === 'best' && limits.most_uL === undefined
  const lists = parts.map((part) => (mode === 'all' ? part.all() : part.best(onlyFirst)))
  const restCost = suffix(parts, (part) => part.first(), addCost, NO_COST)
  // Where a part may not leave out more than it must, its least blood is known; else it might take none.
  const noMoreOut = mode === 'best' || (restCost[0]?.out ?? 0) >= (limits.mostOut ?? Infinity)
  const restBlood =
    limits.most_uL === undefined
      ? undefined
      : suffix(
          parts,
          (part) => (noMoreOut ? leastBlood(part) : 0),
          (a, b) => a + b,
          0,
        )
  const used = kinds.map(() => 0)
  let best = start

  const visit = (at: number, cost: Cost, picks: readonly Choice[]): void => {
    const part = parts[at]
    const list = lists[at]
    const usedKinds = used.filter((n) => n > 0).length
    if (!part || !list) {
      const better =
        !best ||
        compareCost(cost, best.cost) < 0 ||
        (same(cost, best.cost) && usedKinds < best.kinds)
      if (better) best = { picks, cost, kinds: usedKinds }
      return
    }
    for (let i = 0; ; i++) {
      if (effort.left-- <= 0) return
      const choice = list(i)
      if (!choice) return
      const total = addCost(cost, choice.cost)
      const bound = addCost(total, restCost[at + 1] ?? NO_COST)
      const order = best ? compareCost(bound, best.cost) : -1
      if (order > 0 || bound.out > (limits.mostOut ?? Infinity)) return
      if (limits.most_uL !== undefined) {
        if (total.blood_uL + (restBlood?.[at + 1] ?? 0) > limits.most_uL) continue
      }
      if (
        choice.uses.some(({ kind, tubes }) => (used[kind] ?? 0) + tubes > (kinds[kind]?.count ?? 0))
      )
        continue
      for (const { kind, tubes } of choice.uses) used[kind] = (used[kind] ?? 0) + tubes
      const hopeless = order === 0 && best && fewestKinds(used, parts, at + 1) >= best.kinds
      if (!hopeless) visit(at + 1, total, [...picks, choice])
      for (const { kind, tubes } of choice.uses) used[kind] = (used[kind] ?? 0) - tubes
    }
  }
  visit(0, NO_COST, [])
  return best
}

/** Cheapest total with every component taken by itself, as if none took another's stock. */
export function relaxedCost(
  parts: readonly Choices[],
  most_uL: number | undefined,
): Cost | undefined {
  if (most_uL === undefined) return parts.map((part) => part.first()).reduce(addCost, NO_COST)
  let sums: Cost[] = [NO_COST]
  for (const part of parts) {
    const next = sums.flatMap((sum) => part.points().map((point) => addCost(sum, point)))
    sums = undominated(next.filter((cost) => cost.blood_uL <= most_uL))
  }
  return sums[0]
}

/** Of costs with equally many items out, those for which no other has fewer tubes and less blood; cheapest first. */
function undominated(costs: readonly Cost[]): Cost[] {
  const kept: Cost[] = []
  for (const cost of [...costs].sort(compareCost)) {
    const last = kept.at(-1)
    if (!last || cost.blood_uL < last.blood_uL) kept.push(cost)
  }
  return kept
}

const leastBlood = (part: Choices): number => part.points().at(-1)?.blood_uL ?? 0
const same = (a: Cost, b: Cost): boolean => compareCost(a, b) === 0

/** Kinds in use and, for parts still open that share no kind with them or each other, one more each. */
function fewestKinds(used: readonly number[], parts: readonly Choices[], from: number): number {
  const taken = new Set(used.flatMap((n, kind) => (n > 0 ? [kind] : [])))
  let kinds = taken.size
  for (const part of parts.slice(from)) {
    if (part.first().tubes === 0 || [...part.kinds].some((kind) => taken.has(kind))) continue
    kinds++
    for (const kind of part.kinds) taken.add(kind)
  }
  return kinds
}

/** `result[i]` folds the values of parts `i`, `i + 1`, ... */
function suffix<T>(
  parts: readonly Choices[],
  value: (part: Choices) => T,
  add: (a: T, b: T) => T,
  zero: T,
): T[] {
  return parts.reduceRight<T[]>(
    (sums, part) => [add(value(part), sums[0] ?? zero), ...sums],
    [zero],
  )
}
