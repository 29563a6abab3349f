/** Steps the search may still take. A count, never a clock, so that one order always gives one answer. */
export interface Effort {
  left: number
}

export interface Bin {
  /** Index into the demand rows' columns. */
  readonly kind: number
  readonly capacity_uL: number
}

/** Demand of one item by kind of bin, µL; `undefined` where the item may not go in. */
export type DemandRow = readonly (number | undefined)[]

/** Ranks of one item by kind of bin, whole numbers; 0 for what it likes best. */
export type RankRow = readonly number[]

/** For every item the index of its bin or -1 when left out, and the sum of the ranks. */
export interface Placement {
  readonly places: readonly number[]
  readonly rank: number
}

interface Items {
  readonly rows: readonly DemandRow[]
  readonly ranks: readonly RankRow[]
}

/**
 * Places items in bins, leaving out at most `leaveOut` of them, with the least sum of ranks.
 * Exact: depth-first branch and bound that remembers the states it has been in. Item order: fewest kinds, then largest
 * first. Where all kinds are liked alike, the first placement found is the best and the search ends with it.
 * @returns `undefined` when it cannot be done; `'spent'` when the effort ran out before that was known.
 */
export function pack(
  { rows, ranks }: Items,
  bins: readonly Bin[],
  options: { readonly leaveOut: number; readonly onePerBin: boolean },
  effort: Effort,
): Placement | undefined | 'spent' {
  const kinds = [...new Set(bins.map((bin) => bin.kind))]
  const order = rows
    .map((row, index) => {
      const own = kinds.filter((kind) => row[kind] !== undefined)
      const least = Math.min(...own.map((kind) => row[kind] ?? 0))
      const rank = Math.min(...own.map((kind) => ranks[index]?.[kind] ?? 0))
      return { index, row, ways: own.length, least, rank: own.length ? rank : 0 }
    })
    .sort((a, b) => a.ways - b.ways || b.least - a.least || a.index - b.index)
  const needAfter = suffixNeeds(
    order.map((item) => item.least),
    options.leaveOut,
  )
  // Items left out have no rank, so that with any of them nothing is known beforehand.
  const rankAfter =
    options.leaveOut > 0 ? order.map(() => 0) : suffixSums(order.map(({ rank }) => rank))
  const room = bins.map((bin) => bin.capacity_uL)
  const places = rows.map(() => -1)
  const seen = new Map<string, number>()
  let best: Placement | undefined

  /** Goes on from item `at`; false when the effort ran out. */
  const place = (at: number, skips: number, rank: number): boolean => {
    const item = order[at]
    if (best && rank + (rankAfter[at] ?? 0) >= best.rank) return true
    if (!item) {
      best = { places: [...places], rank }
      return true
    }
    if (effort.left-- <= 0) return false
    if ((needAfter[skips]?.[at] ?? 0) > sum(room)) return true
    const key = stateKey(at, skips, bins, room)
    if ((seen.get(key) ?? Infinity) <= rank) return true
    seen.set(key, rank)
    const tried = new Set<string>()
    const candidates = bins
      .map((bin, b) => ({
        b,
        bin,
        demand: item.row[bin.kind],
        rank: ranks[item.index]?.[bin.kind] ?? 0,
        room: room[b] ?? 0,
      }))
      .filter((c) => c.demand !== undefined && c.demand <= c.room)
      .sort((x, y) => x.rank - y.rank || x.room - y.room)
    for (const { b, bin, demand, rank: own, room: before } of candidates) {
      const twin = `${bin.kind}:${before}`
      if (tried.has(twin)) continue
      tried.add(twin)
      room[b] = options.onePerBin ? 0 : before - (demand ?? 0)
      places[item.index] = b
      const whole = place(at + 1, skips, rank + own)
      room[b] = before
      places[item.index] = -1
      if (!whole) return false
    }
    return skips > 0 ? place(at + 1, skips - 1, rank) : true
  }

  return place(0, options.leaveOut, 0) ? best : 'spent'
}

/** `[skips][at]`: least µL the items from `at` on need when the `skips` largest of them are left out. */
function suffixNeeds(least: readonly number[], most: number): readonly (readonly number[])[] {
  const reduced = Array.from({ length: most }, (_, skips) =>
    least.map((_need, at) => sum(descending(least.slice(at)).slice(skips + 1))),
  )
  return [suffixSums(least), ...reduced]
}

const suffixSums = (values: readonly number[]): number[] =>
  values.reduceRight<number[]>((sums, value) => [value + (sums[0] ?? 0), ...sums], [])
const sum = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0)
const descending = (values: readonly number[]): number[] => [...values].sort((a, b) => b - a)

function stateKey(at: number, skips: number, bins: readonly Bin[], room: number[]): string {
  const state = bins.map((bin, b) => `${bin.kind}:${room[b] ?? 0}`).sort()
  return `${at}/${skips}/${state.join(',')}`
}
