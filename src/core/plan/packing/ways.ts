import {
  bloodSums,
  setsOf,
  type Component,
  type Cost,
  type packer,
  type SizeCounts,
} from './component.ts'
import type { Effort } from './packing.ts'

/** Tubes of each size that hold a component, and what that costs. */
export interface Way {
  readonly counts: SizeCounts
  readonly cost: Cost
}

/** The tube sets that hold a component, by the number of tubes. */
export interface Ways {
  /** The cheapest with that many out and tubes that takes less blood than `below_uL`. */
  cheapest(out: number, tubes: number, below_uL: number): Cost | undefined
  /** Every way of exactly that cost. */
  at(cost: Cost): Iterable<Way>
  /** Every way with that many out and tubes, cheapest first. */
  all(out: number, tubes: number): Iterable<Way>
}

/**
 * Where no item prefers one kind to another, tube sets are tried by their blood and the first that holds is the best.
 * Otherwise each set has a least rank that can be read off it; sets are tried by that and then by blood, and only those
 * that could still be best are packed.
 */
export function waysOf(
  component: Component,
  holds: ReturnType<typeof packer>,
  effort: Effort,
): Ways {
  return alike(component) ? byBlood(component, holds, effort) : byRank(component, holds, effort)
}

/** True when every item likes all the kinds it may go in alike. */
function alike({ rows, ranks }: Component): boolean {
  return rows.every((row, i) => {
    const own = row.flatMap((demand, k) => (demand === undefined ? [] : [ranks[i]?.[k] ?? 0]))
    return own.every((rank) => rank === own[0])
  })
}

function byBlood({ sizes }: Component, holds: ReturnType<typeof packer>, effort: Effort): Ways {
  function* at(out: number, tubes: number, blood_uL: number): Generator<Way> {
    for (const counts of setsOf(sizes, tubes, blood_uL, effort)) {
      const placement = holds(counts, out)
      if (placement) yield { counts, cost: { out, tubes, rank: placement.rank, blood_uL } }
    }
  }
  function* all(out: number, tubes: number): Generator<Way> {
    for (const blood_uL of bloodSums(sizes, tubes)) yield* at(out, tubes, blood_uL)
  }
  return {
    cheapest: (out, tubes, below_uL) => {
      if (effort.left <= 0) return undefined
      for (const blood_uL of bloodSums(sizes, tubes)) {
        if (blood_uL >= below_uL) return undefined
        for (const { cost } of at(out, tubes, blood_uL)) return cost
      }
      return undefined
    },
    at: (cost) => at(cost.out, cost.tubes, cost.blood_uL),
    all,
  }
}

interface TubeSet {
  readonly counts: SizeCounts
  readonly blood_uL: number
  /** No placement in these tubes has a smaller sum of ranks. */
  readonly leastRank: number
}

function byRank(component: Component, holds: ReturnType<typeof packer>, effort: Effort): Ways {
  const known = new Map<string, readonly TubeSet[]>()
  const sets = (out: number, tubes: number): readonly TubeSet[] => {
    const key = `${out}/${tubes}`
    const found = known.get(key) ?? tubeSets(component, out, tubes, effort)
    known.set(key, found)
    return found
  }
  function* ways(out: number, tubes: number): Generator<Way> {
    for (const { counts, blood_uL } of sets(out, tubes)) {
      const placement = holds(counts, out)
      if (placement) yield { counts, cost: { out, tubes, rank: placement.rank, blood_uL } }
    }
  }
  return {
    cheapest: (out, tubes, below_uL) => {
      let best: Cost | undefined
      for (const { counts, blood_uL, leastRank } of sets(out, tubes)) {
        if (best && leastRank > best.rank) break
        if (blood_uL >= below_uL) continue
        if (best && leastRank === best.rank && blood_uL >= best.blood_uL) continue
        const rank = holds(counts, out)?.rank
        if (rank === undefined) continue
        if (!best || rank < best.rank || (rank === best.rank && blood_uL < best.blood_uL)) {
          best = { out, tubes, rank, blood_uL }
        }
      }
      return best
    },
    *at(cost) {
      for (const set of sets(cost.out, cost.tubes)) {
        if (set.blood_uL !== cost.blood_uL || set.leastRank > cost.rank) continue
        if (holds(set.counts, cost.out)?.rank === cost.rank) yield { counts: set.counts, cost }
      }
    },
    all: (out, tubes) =>
      [...ways(out, tubes)].sort(
        (a, b) => a.cost.rank - b.cost.rank || a.cost.blood_uL - b.cost.blood_uL,
      ),
  }
}

/** Every set of so many tubes with room enough by volume alone, by least rank and then by blood. */
function tubeSets(
  { rows, ranks, sizes, onePerBin }: Component,
  out: number,
  tubes: number,
  effort: Effort,
): readonly TubeSet[] {
  const needs = rows
    .map((row) => Math.min(...row.filter((demand) => demand !== undefined)))
    .sort((a, b) => a - b)
    .slice(0, rows.length - out)
  const need_uL = onePerBin ? 0 : needs.reduce((sum, v) => sum + v, 0)
  const largest = sizes.map((_s, i) => Math.max(...sizes.slice(i).map((s) => s.capacity_uL)))
  const found: TubeSet[] = []

  const visit = (at: number, left: number, room_uL: number, counts: readonly number[]): void => {
    if (effort.left-- <= 0) return
    if (left === 0) {
      if (room_uL < need_uL) return
      const all = [...counts, ...sizes.slice(at).map(() => 0)]
      found.push({ counts: all, blood_uL: bloodOf(all), leastRank: leastRank(all) })
      return
    }
    const size = sizes[at]
    if (!size || room_uL + left * (largest[at] ?? 0) < need_uL) return
    for (let n = Math.min(size.count, left); n >= 0; n--) {
      visit(at + 1, left - n, room_uL + n * size.capacity_uL, [...counts, n])
    }
  }
  const bloodOf = (counts: SizeCounts): number =>
    sizes.reduce((sum, size, s) => sum + size.blood_uL * (counts[s] ?? 0), 0)
  const leastRank = (counts: SizeCounts): number => {
    const least = rows
      .map((row, i) =>
        Math.min(
          ...sizes.flatMap(({ kinds: [kind = -1] }, s) =>
            (counts[s] ?? 0) > 0 && row[kind] !== undefined ? [ranks[i]?.[kind] ?? 0] : [],
          ),
        ),
      )
      .sort((a, b) => a - b)
    return least.slice(0, rows.length - out).reduce((sum, rank) => sum + rank, 0)
  }
  visit(0, tubes, 0, [])
  return found
    .filter((set) => set.leastRank < Infinity)
    .sort((a, b) => a.leastRank - b.leastRank || a.blood_uL - b.blood_uL)
}
