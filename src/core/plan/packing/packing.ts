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

/**
 * Places items in bins, leaving out at most `leaveOut` of them.
 * Exact: depth-first with remembered dead ends. Item order: fewest kinds, then largest first.
 * @returns for every item the index of its bin or -1 when left out; `undefined` when it cannot be done;
 *   `'spent'` when the effort ran out before that was known.
 */
export function pack(
  rows: readonly DemandRow[],
  bins: readonly Bin[],
  options: { readonly leaveOut: number; readonly onePerBin: boolean },
  effort: Effort,
): readonly number[] | undefined | 'spent' {
  const order = rows
    .map((row, index) => ({ index, row, kinds: [...new Set(bins.map((bin) => bin.kind))] }))
    .map(({ index, row, kinds }) => {
      const fits = kinds.map((kind) => row[kind]).filter((d) => d !== undefined)
      return { index, row, ways: fits.length, least: fits.length ? Math.min(...fits) : Infinity }
    })
    .sort((a, b) => a.ways - b.ways || b.least - a.least || a.index - b.index)
  const needAfter = suffixNeeds(
    order.map((item) => item.least),
    options.leaveOut,
  )
  const room = bins.map((bin) => bin.capacity_uL)
  const places = rows.map(() => -1)
  const dead = new Set<string>()

  /** True when items from `at` on can be placed; undefined when the effort ran out. */
  const place = (at: number, skips: number): boolean | undefined => {
    const item = order[at]
    if (!item) return true
    if (effort.left-- <= 0) return undefined
    if ((needAfter[skips]?.[at] ?? 0) > sum(room)) return false
    const key = deadEndKey(at, skips, bins, room)
    if (dead.has(key)) return false
    const tried = new Set<string>()
    const candidates = bins
      .map((bin, b) => ({ b, bin, demand: item.row[bin.kind], room: room[b] ?? 0 }))
      .filter((c) => c.demand !== undefined && c.demand <= c.room)
      .sort((x, y) => x.room - y.room)
    for (const { b, bin, demand, room: before } of candidates) {
      const twin = `${bin.kind}:${before}`
      if (tried.has(twin)) continue
      tried.add(twin)
      room[b] = options.onePerBin ? 0 : before - (demand ?? 0)
      places[item.index] = b
      const done = place(at + 1, skips)
      if (done !== false) return done
      room[b] = before
      places[item.index] = -1
    }
    if (skips > 0) {
      const done = place(at + 1, skips - 1)
      if (done !== false) return done
    }
    dead.add(key)
    return false
  }

  const done = place(0, options.leaveOut)
  return done === undefined ? 'spent' : done ? places : undefined
}

/** `[skips][at]`: least µL the items from `at` on need when the `skips` largest of them are left out. */
function suffixNeeds(least: readonly number[], most: number): readonly (readonly number[])[] {
  const all = least.reduceRight<number[]>((sums, need) => [need + (sums[0] ?? 0), ...sums], [])
  const reduced = Array.from({ length: most }, (_, skips) =>
    least.map((_need, at) => sum(descending(least.slice(at)).slice(skips + 1))),
  )
  return [all, ...reduced]
}

const sum = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0)
const descending = (values: readonly number[]): number[] => [...values].sort((a, b) => b - a)

function deadEndKey(at: number, skips: number, bins: readonly Bin[], room: number[]): string {
  const state = bins.map((bin, b) => `${bin.kind}:${room[b] ?? 0}`).sort()
  return `${at}/${skips}/${state.join(',')}`
}
