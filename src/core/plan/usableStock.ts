import { isOtherSupply } from '../catalogue/otherSupplies.ts'
import { findTube, type Catalogue, type StockTube, type TubeRow } from '../catalogue/catalogue.ts'

/** One kind of tube that may be used today, soonest expiry first among its lots. */
export interface UsableTube {
  readonly tube: TubeRow
  readonly lots: readonly StockTube[]
  readonly count: number
  /** Blood to plan in it, mL, where that is less than its draw volume. */
  readonly part_mL?: number
}

/** Blood that is planned in a tube, mL. */
export const fillOf_mL = ({ tube, part_mL }: UsableTube): number => part_mL ?? tube.nominal_mL

/** More of a tube than any draw takes, where nobody has counted. */
const UNCOUNTED = 40

/**
 * Sorts the stock into what may be used and what has expired. A tube may be used through its last day. Without a stock
 * every tube of the catalogue is taken to be there, of a lot that nobody knows.
 */
export function usableStock(
  catalogue: Catalogue,
  stock: readonly StockTube[] | undefined,
  today: string,
): { readonly usable: readonly UsableTube[]; readonly expired: readonly StockTube[] } {
  if (!stock) {
    const all = [...catalogue.tubes].sort((a, b) => (a.code < b.code ? -1 : 1))
    return { usable: all.map((tube) => ({ tube, lots: [], count: UNCOUNTED })), expired: [] }
  }
  const good = stock.filter((lot) => lot.expires >= today && lot.count > 0)
  const codes = [...new Set(good.map((lot) => lot.tubeCode))].sort()
  const usable = codes.flatMap((code) => {
    const tube = findTube(catalogue, code)
    if (!tube) return []
    const lots = good
      .filter((lot) => lot.tubeCode === code)
      .sort((a, b) => a.expires.localeCompare(b.expires) || a.lot.localeCompare(b.lot))
    return [{ tube, lots, count: lots.reduce((sum, lot) => sum + lot.count, 0) }]
  })
  const tubes = stock.filter((lot) => !isOtherSupply(lot, catalogue.tubes))
  return { usable, expired: tubes.filter((lot) => lot.expires < today) }
}

/** Hands out lots one tube at a time, the soonest to expire first. */
export function lotTaker(usable: readonly UsableTube[]) {
  const taken = new Map<string, number>()
  const own = (tubeCode: string) => usable.find(({ tube }) => tube.code === tubeCode)
  return {
    take: (tubeCode: string): StockTube | undefined => {
      let before = taken.get(tubeCode) ?? 0
      taken.set(tubeCode, before + 1)
      return own(tubeCode)?.lots.find((lot) => (before -= lot.count) < 0)
    },
    left: (tubeCode: string): number => (own(tubeCode)?.count ?? 0) - (taken.get(tubeCode) ?? 0),
  }
}
