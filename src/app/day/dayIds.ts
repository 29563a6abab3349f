import type { AppParts } from '../appDeps.ts'

/**
 * Ids of what is listed and done: by lot, so that they stay what they are when another page writes first.
 * @param kind `L` of an order, `B` of an act at the bench
 */
export function dayIds(
  { get, today, drawLot }: Pick<AppParts, 'get' | 'today' | 'drawLot'>,
  kind: 'L' | 'B',
  taken: Iterable<string>,
  n: number,
): readonly string[] {
  const known = new Set(taken)
  const head = `${get().settings.devicePrefix}-${today().replaceAll('-', '')}-${kind}`
  const ids: string[] = []
  for (let count = 0; ids.length < n; count++) {
    const lot = `${head}${drawLot().toString(36).toUpperCase()}`
    const id = known.has(lot) ? `${lot}-${count}` : lot
    if (known.has(id)) continue
    known.add(id)
    ids.push(id)
  }
  return ids
}
