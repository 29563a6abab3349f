import type { StockTube, TubeRow } from './catalogue.ts'
import { isOtherSupply } from './otherSupplies.ts'

/** Something that is gone from the shelf. Without a lot nobody read which one: it is of the first to expire. */
export interface GoneSupply {
  readonly code: string
  readonly lot?: string | undefined
}

/** What a closed draw took off the shelf. */
export interface CountedDraw {
  readonly drawId: string
  /** ms since 1970 UTC by the clock of the device that closed it. */
  readonly closed_ms: number
  readonly used: readonly GoneSupply[]
}

/** What is on the shelf, and the draws that are taken off already. */
export interface CountedStock {
  readonly lots: readonly StockTube[]
  /** When somebody counted: what was drawn before is not on the shelf any more. */
  readonly since_ms: number
  readonly counted: readonly CountedDraw[]
}

/** So many draws are remembered; what was closed before the oldest of them counts as taken off. */
export const COUNTED_MAX = 2000

/**
 * Takes off what draws used, each once. A count never falls below nothing: then somebody miscounted.
 * @param draws in the order of their closing
 * @param tubes of the catalog, by which sets and labels are told from tubes
 */
export function countDraws(
  stock: CountedStock,
  draws: readonly CountedDraw[],
  tubes: readonly TubeRow[],
): CountedStock {
  const known = new Set(stock.counted.map(({ drawId }) => drawId))
  const lots = stock.lots.map((lot) => ({ ...lot }))
  const counted = [...stock.counted]
  for (const draw of draws) {
    if (known.has(draw.drawId)) continue
    known.add(draw.drawId)
    counted.push(draw)
    for (const gone of draw.used) {
      const lot =
        gone.lot === undefined
          ? firstToExpire(lots, gone.code, tubes)
          : lots.find(({ tubeCode, lot }) => tubeCode === gone.code && lot === gone.lot)
      if (lot && lot.count > 0) lot.count -= 1
    }
  }
  const dropped = counted.slice(0, Math.max(0, counted.length - COUNTED_MAX))
  const since_ms = Math.max(stock.since_ms, ...dropped.map(({ closed_ms }) => closed_ms + 1))
  return { lots, since_ms, counted: counted.slice(dropped.length) }
}

function firstToExpire<Lot extends StockTube>(
  lots: readonly Lot[],
  code: string,
  tubes: readonly TubeRow[],
): Lot | undefined {
  return lots
    .filter((lot) => lot.tubeCode === code && lot.count > 0 && isOtherSupply(lot, tubes))
    .sort((a, b) => a.expires.localeCompare(b.expires))[0]
}

/** Takes a stock that was counted elsewhere; what was drawn here since, and is unknown there, is taken off it. */
export function takeStock(
  theirs: CountedStock,
  ours: CountedStock | undefined,
  tubes: readonly TubeRow[],
): CountedStock {
  return countDraws(theirs, drawnSince(theirs, ours?.counted ?? []), tubes)
}

/** Those of the draws that were closed after somebody counted. */
export const drawnSince = (
  { since_ms }: Pick<CountedStock, 'since_ms'>,
  draws: readonly CountedDraw[],
): readonly CountedDraw[] => draws.filter(({ closed_ms }) => closed_ms >= since_ms)
