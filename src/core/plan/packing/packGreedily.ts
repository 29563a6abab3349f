import type { PackProblem, PackedTube, Packing } from './packProblem.ts'

/**
 * A quick packing without any promise: what is shown when the exact search had to stop.
 * Each tube is the one that takes most of what is left, the best liked and then the smallest such.
 * @returns `undefined` when it would take more blood than allowed.
 */
export function packGreedily(
  { rows, ranks, sharing, kinds }: PackProblem,
  most_uL: number | undefined,
): Packing | undefined {
  const stock = kinds.map((kind) => kind.count)
  const order = rows
    .map((row, item) => ({ item, most: Math.max(0, ...row.map((demand) => demand ?? 0)) }))
    .sort((a, b) => b.most - a.most || a.item - b.item)
    .map(({ item }) => item)
  const open = new Set(order)
  const tubes: PackedTube[] = []

  const fill = (kind: number, first: number): number[] => {
    let room = kinds[kind]?.capacity_uL ?? 0
    const alone = (sharing[first] ?? '').startsWith('alone')
    const items: number[] = []
    for (const item of alone ? [first] : [first, ...[...open].filter((i) => i !== first)]) {
      const demand = rows[item]?.[kind]
      if (sharing[item] !== sharing[first] || demand === undefined || demand > room) continue
      room -= demand
      items.push(item)
    }
    return items
  }
  const onHand = (): number[] => kinds.flatMap((_k, kind) => ((stock[kind] ?? 0) > 0 ? [kind] : []))
  const blood = (kind: number): number => kinds[kind]?.blood_uL ?? 0
  const rank = ({ kind, items }: PackedTube): number =>
    items.reduce((sum, item) => sum + (ranks?.[item]?.[kind] ?? 0), 0)

  for (const first of order) {
    if (!open.has(first)) continue
    const options = onHand()
      .map((kind) => ({ kind, items: fill(kind, first) }))
      .filter(({ items }) => items.includes(first))
      .sort(
        (a, b) =>
          b.items.length - a.items.length || rank(a) - rank(b) || blood(a.kind) - blood(b.kind),
      )
    const pick = options[0]
    if (!pick) continue
    pick.items.forEach((item) => open.delete(item))
    stock[pick.kind] = (stock[pick.kind] ?? 0) - 1
    tubes.push(pick)
  }
  const cost = {
    out: open.size,
    tubes: tubes.length,
    rank: tubes.reduce((sum, tube) => sum + rank(tube), 0),
    blood_uL: tubes.reduce((sum, tube) => sum + blood(tube.kind), 0),
    kinds: new Set(tubes.map((tube) => tube.kind)).size,
  }
  if (most_uL !== undefined && cost.blood_uL > most_uL) return undefined
  return { tubes, out: [...open].sort((a, b) => a - b), cost, proven: false }
}
