import {
  leastOut,
  NO_COST,
  packer,
  type Component,
  type Cost,
  type Kind,
  type SizeCounts,
} from './component.ts'
import type { Effort } from './packing.ts'
import { waysOf, type Way } from './ways.ts'

/** One way to serve a component: its cost, and how many tubes of which kind. */
export interface Choice {
  readonly cost: Cost
  readonly counts: SizeCounts
  readonly uses: readonly { readonly kind: number; readonly tubes: number }[]
}

/** The ways to serve one component, cheapest first, worked out only as far as somebody asks. */
export interface Choices {
  readonly component: Component
  readonly holds: ReturnType<typeof packer>
  /** The costs worth considering, cheapest first: each dearer one takes less blood than all before it. */
  points(): readonly Cost[]
  /** The cheapest cost of all. */
  first(): Cost
  /** Every way that costs one of the points, or only the first of them. */
  best(onlyFirst: boolean): Sequence<Choice>
  /** Every way at all. */
  all(): Sequence<Choice>
  readonly kinds: ReadonlySet<number>
}

/** Values computed on first use and kept. */
export type Sequence<T> = (index: number) => T | undefined

export function choicesFor(component: Component, kinds: readonly Kind[], effort: Effort): Choices {
  const holds = packer(component, effort)
  const { sizes, items } = component
  let out: number | undefined
  const fewestOut = (): number => (out ??= leastOut(component, holds))
  const points: Cost[] = []
  const ways = waysOf(component, holds, effort)

  const extendPoints = (onlyFirst: boolean): readonly Cost[] => {
    if (points.length > 0 && onlyFirst) return points.slice(0, 1)
    const from = points.at(-1)
    for (let tubes = from ? from.tubes : leastTubes(component, fewestOut()); ; tubes++) {
      if (tubes > items.length - fewestOut() || effort.left <= 0) break
      for (;;) {
        const point = ways.cheapest(fewestOut(), tubes, points.at(-1)?.blood_uL ?? Infinity)
        if (!point) break
        points.push(point)
        if (onlyFirst) return points
      }
    }
    return points
  }
  const nothing: Cost = { ...NO_COST, out: items.length }
  const leftOut: Choice = { cost: nothing, counts: sizes.map(() => 0), uses: [] }

  function* spreadOut(found: Iterable<Way>): Generator<Choice> {
    for (const { cost, counts } of found) {
      for (const uses of spread(component, counts, kinds)) yield { cost, counts, uses }
    }
  }
  function* bestWays(onlyFirst: boolean): Generator<Choice> {
    const costs = extendPoints(onlyFirst)
    if (costs.length === 0) yield leftOut
    for (const cost of costs) yield* spreadOut(ways.at(cost))
  }
  function* allWays(): Generator<Choice> {
    for (let left = fewestOut(); left < items.length; left++) {
      for (let tubes = leastTubes(component, left); tubes <= items.length - left; tubes++) {
        if (effort.left <= 0) break
        yield* spreadOut(ways.all(left, tubes))
      }
    }
    yield leftOut
  }
  return {
    component,
    holds,
    points: () => {
      const costs = extendPoints(false)
      return costs.length > 0 ? costs : [nothing]
    },
    first: () => extendPoints(true)[0] ?? nothing,
    best: (onlyFirst) => sequence(bestWays(onlyFirst)),
    all: () => sequence(allWays()),
    kinds: new Set(sizes.flatMap((size) => size.kinds)),
  }
}

/** Least number of tubes whose room could suffice, by volume alone. */
function leastTubes({ rows, sizes, onePerBin }: Component, out: number): number {
  if (onePerBin) return rows.length - out
  const needs = rows
    .map((row) => Math.min(...row.filter((demand) => demand !== undefined)))
    .sort((a, b) => a - b)
    .slice(0, rows.length - out)
  let need = needs.reduce((sum, v) => sum + v, 0)
  let tubes = 0
  for (const size of [...sizes].sort((a, b) => b.capacity_uL - a.capacity_uL)) {
    for (let n = 0; n < size.count && need > 0; n++) {
      need -= size.capacity_uL
      tubes++
    }
  }
  return Math.max(tubes, 1)
}

/** Every way to take the size counts from the real kinds on hand, few kinds first. */
function* spread(
  component: Component,
  counts: SizeCounts,
  kinds: readonly Kind[],
  size = 0,
): Generator<{ kind: number; tubes: number }[]> {
  const own = component.sizes[size]
  if (!own) {
    yield []
    return
  }
  for (const part of split(own.kinds, counts[size] ?? 0, kinds)) {
    for (const rest of spread(component, counts, kinds, size + 1)) yield [...part, ...rest]
  }
}

function* split(
  own: readonly number[],
  tubes: number,
  kinds: readonly Kind[],
): Generator<{ kind: number; tubes: number }[]> {
  if (tubes === 0) {
    yield []
    return
  }
  const [kind, ...others] = own
  if (kind === undefined) return
  for (let n = Math.min(tubes, kinds[kind]?.count ?? 0); n >= 0; n--) {
    for (const rest of split(others, tubes - n, kinds)) {
      yield n > 0 ? [{ kind, tubes: n }, ...rest] : rest
    }
  }
}

function sequence<T>(source: Generator<T>): Sequence<T> {
  const seen: T[] = []
  return (index) => {
    while (seen.length <= index) {
      const next = source.next()
      if (next.done) return undefined
      seen.push(next.value)
    }
    return seen[index]
  }
}
