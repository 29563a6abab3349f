import {
  pack,
  type Bin,
  type DemandRow,
  type Effort,
  type Placement,
  type RankRow,
} from './packing.ts'

/** A kind of tube on hand, in µL so that sums are exact. */
export interface Kind {
  /** What may be used for tests. */
  readonly capacity_uL: number
  /** What is taken from the patient. */
  readonly blood_uL: number
  readonly count: number
}

/** Items that may meet in a tube, directly or through others; no item of one component can meet one of another. */
export interface Component {
  readonly items: readonly number[]
  readonly rows: readonly DemandRow[]
  /** How far down its list of preferences each item is in each kind; 0 where it likes all kinds alike. */
  readonly ranks: readonly RankRow[]
  readonly onePerBin: boolean
  readonly sizes: readonly SizeClass[]
}

/** Kinds that no item of the component can tell apart: same room, same blood, same demands, same preference. */
export interface SizeClass {
  readonly kinds: readonly number[]
  readonly capacity_uL: number
  readonly blood_uL: number
  readonly count: number
}

/** A number of tubes of each size class, index for index with `Component.sizes`. */
export type SizeCounts = readonly number[]

/** Items left out, tubes used, preferences passed over and blood taken: compared by, in this order. */
export interface Cost {
  readonly out: number
  readonly tubes: number
  /** Sum over the items of how far down its list of preferences each is. */
  readonly rank: number
  readonly blood_uL: number
}

export function compareCost(a: Cost, b: Cost): number {
  return a.out - b.out || a.tubes - b.tubes || a.rank - b.rank || a.blood_uL - b.blood_uL
}

export function addCost(a: Cost, b: Cost): Cost {
  return {
    out: a.out + b.out,
    tubes: a.tubes + b.tubes,
    rank: a.rank + b.rank,
    blood_uL: a.blood_uL + b.blood_uL,
  }
}

export const NO_COST: Cost = { out: 0, tubes: 0, rank: 0, blood_uL: 0 }

/** Splits the items by sharing key and by the kinds that link them. */
export function splitComponents({
  rows,
  ranks,
  sharing,
  kinds,
}: {
  readonly rows: readonly DemandRow[]
  readonly ranks?: readonly RankRow[]
  readonly sharing: readonly string[]
  readonly kinds: readonly Kind[]
}): Component[] {
  const groups: { sharing: string; items: number[]; kinds: Set<number> }[] = []
  rows.forEach((row, item) => {
    const own = new Set(row.flatMap((demand, kind) => (demand === undefined ? [] : [kind])))
    const key = sharing[item] ?? ''
    const linked = groups.filter((g) => g.sharing === key && [...own].some((k) => g.kinds.has(k)))
    const merged = {
      sharing: key,
      items: [...linked.flatMap((g) => g.items), item],
      kinds: new Set([...linked.flatMap((g) => [...g.kinds]), ...own]),
    }
    const rest = groups.filter((g) => !linked.includes(g))
    groups.splice(0, groups.length, ...rest, merged)
  })
  return groups.map((group) => {
    const items = group.items.sort((a, b) => a - b)
    const own = items.map((item) => rows[item] ?? [])
    const ownRanks = items.map((item) => ranks?.[item] ?? own[0]?.map(() => 0) ?? [])
    return {
      items,
      rows: own,
      ranks: ownRanks,
      onePerBin: group.sharing.startsWith('alone'),
      sizes: sizeClasses(own, ownRanks, [...group.kinds], kinds),
    }
  })
}

function sizeClasses(
  rows: readonly DemandRow[],
  ranks: readonly RankRow[],
  used: readonly number[],
  kinds: readonly Kind[],
): SizeClass[] {
  const bySignature = new Map<string, SizeClass>()
  for (const k of [...used].sort((a, b) => a - b)) {
    const kind = kinds[k]
    if (!kind) continue
    const demands = rows.map((row, i) => `${row[k] ?? '-'}:${ranks[i]?.[k] ?? 0}`).join(',')
    const signature = `${kind.capacity_uL}/${kind.blood_uL}/${demands}`
    const known = bySignature.get(signature)
    bySignature.set(signature, {
      kinds: [...(known?.kinds ?? []), k],
      capacity_uL: kind.capacity_uL,
      blood_uL: kind.blood_uL,
      count: Math.min(rows.length, (known?.count ?? 0) + kind.count),
    })
  }
  return [...bySignature.values()].sort((a, b) => a.blood_uL - b.blood_uL)
}

/** The best way for given tubes to hold a component's items, if any, remembering what it has worked out. */
export function packer(component: Component, effort: Effort) {
  const known = new Map<string, Placement | undefined>()
  return (counts: SizeCounts, leaveOut: number): Placement | undefined => {
    const key = `${leaveOut}/${counts.join(',')}`
    if (known.has(key)) return known.get(key)
    const options = { leaveOut, onePerBin: component.onePerBin }
    const result = pack(component, binsOf(component, counts), options, effort)
    if (result === 'spent') return undefined
    known.set(key, result)
    return result
  }
}

/** Bins in size order; their `kind` is a representative of the size class. */
export function binsOf(component: Component, counts: SizeCounts): Bin[] {
  return component.sizes.flatMap((size, s) =>
    Array.from({ length: counts[s] ?? 0 }, () => ({
      kind: size.kinds[0] ?? -1,
      capacity_uL: size.capacity_uL,
    })),
  )
}

/** Fewest items that must stay out even with every tube on hand for this component alone. */
export function leastOut(component: Component, holds: ReturnType<typeof packer>): number {
  const { rows, sizes } = component
  const plenty = sizes.filter((size) => size.count >= rows.length)
  const ownTubeForEach = rows.every((row) =>
    plenty.some((size) => row[size.kinds[0] ?? -1] !== undefined),
  )
  if (ownTubeForEach) return 0
  const all = sizes.map((size) => size.count)
  for (let out = 0; out < rows.length; out++) if (holds(all, out)) return out
  return rows.length
}

/** Every set of `tubes` tubes that takes exactly `blood_uL`, larger runs of one size first. */
export function* setsOf(
  sizes: readonly SizeClass[],
  tubes: number,
  blood_uL: number,
  effort: Effort,
  at = 0,
): Generator<number[]> {
  if (effort.left-- <= 0) return
  if (tubes === 0) {
    if (blood_uL === 0) yield sizes.slice(at).map(() => 0)
    return
  }
  const size = sizes[at]
  if (!size || blood_uL < tubes * size.blood_uL) return
  const largest = sizes.at(-1)?.blood_uL ?? 0
  if (blood_uL > tubes * largest) return
  const most = Math.min(size.count, tubes, Math.floor(blood_uL / size.blood_uL))
  for (let n = most; n >= 0; n--) {
    for (const rest of setsOf(sizes, tubes - n, blood_uL - n * size.blood_uL, effort, at + 1)) {
      yield [n, ...rest]
    }
  }
}

/** The totals of blood that `tubes` tubes can come to, ascending, µL. */
export function bloodSums(sizes: readonly SizeClass[], tubes: number): number[] {
  let sums: Set<number>[] = Array.from({ length: tubes + 1 }, () => new Set<number>())
  sums[0]?.add(0)
  for (const size of sizes) {
    const next = sums.map((set) => new Set(set))
    for (let n = 1; n <= Math.min(size.count, tubes); n++) {
      for (let t = n; t <= tubes; t++) {
        for (const s of sums[t - n] ?? []) next[t]?.add(s + n * size.blood_uL)
      }
    }
    sums = next
  }
  return [...(sums[tubes] ?? [])].sort((a, b) => a - b)
}
