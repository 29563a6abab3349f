import type { StockTube } from '../../core/catalogue/catalogue.ts'
import { isToDo } from '../../core/day/orderStatus.ts'
import { drawNeeds, suppliesOf, type DrawNeeds, type Supplies } from '../../core/day/supplies.ts'
import { planInput } from '../order/planInput.ts'
import { readDraft } from '../order/readDraft.ts'
import type { SiteData } from '../site/siteData.ts'
import type { DayRow } from '../view/dayViewTypes.ts'
import type { ListedOrder } from '../../core/day/listedOrder.ts'
import { servedDraft } from './servedDraft.ts'

/** Orders that share a draw which is to be made or under way: its tubes are still in the stock. */
interface DrawToSupply {
  readonly orders: readonly [ListedOrder, ...ListedOrder[]]
  readonly invented: boolean
}

/** Where the tubes come from, and when. `today` is the local date, `YYYY-MM-DD`. */
interface SuppliedBy {
  readonly site: SiteData
  readonly stock: readonly StockTube[] | undefined
  readonly today: string
}

/** What the list needs of one stock: the shipped one is invented, like the patients it is for. */
export interface ListSupplies extends Supplies {
  readonly invented: boolean
  readonly isCounted: boolean
  /** Draws that are in it. */
  readonly draws: number
  /** Orders that cannot be planned yet. */
  readonly notCounted: number
  /** Orders in it whose plan stops or leaves a test without a tube. */
  readonly stopped: number
}

/** What of the list is to be supplied, and how much of it cannot be told from here. */
export function drawsToSupply(rows: readonly DayRow[]): {
  readonly draws: readonly DrawToSupply[]
  /** Draws of series already begun. */
  readonly sittings: number
  /** Orders that lack something of their draw, which nobody has listed again. */
  readonly leftOver: number
} {
  const groups = rows.flatMap((row) => (row.kind === 'orders' ? [row.group] : []))
  const draws = groups.flatMap(({ items, status, invented }): DrawToSupply[] => {
    const [first, ...rest] = items.map(({ order }) => order)
    return first && (isToDo(status) || status === 'inChair')
      ? [{ orders: [first, ...rest], invented }]
      : []
  })
  const all = groups.reduce((sum, { items }) => sum + items.length, 0)
  return {
    draws,
    sittings: rows.length - groups.length,
    leftOver: all - draws.reduce((sum, { orders }) => sum + orders.length, 0),
  }
}

/** What one draw needs, planned as it would be now; `undefined` while it cannot be planned. */
export function needsOf(
  { orders }: DrawToSupply,
  { site, stock, today }: SuppliedBy,
): DrawNeeds | undefined {
  const draft = servedDraft(orders, site)
  const reading = readDraft(draft, today, site.texts, site.catalogue)
  if (!reading.ok) return undefined
  return drawNeeds(planInput(reading.value, draft, site, today, stock))
}

/** What the list needs of each stock; a stock that no order is for is left out. */
export function daySupplies(
  planned: readonly { readonly draw: DrawToSupply; readonly needs: DrawNeeds | undefined }[],
  { site, stock, today }: SuppliedBy,
): readonly ListSupplies[] {
  return [false, true].flatMap((invented): ListSupplies[] => {
    const own = planned.filter(({ draw }) => draw.invented === invented)
    if (own.length === 0) return []
    const counted = own.flatMap(({ needs }) => needs ?? [])
    const of = invented ? site.stock : stock
    const orders = (some: typeof own): number =>
      some.reduce((sum, { draw }) => sum + draw.orders.length, 0)
    return [
      {
        ...suppliesOf(counted, of, today, site.catalogue.tubes),
        invented,
        isCounted: of !== undefined,
        draws: counted.length,
        notCounted: orders(own.filter(({ needs }) => !needs)),
        stopped: orders(own.filter(({ needs }) => needs?.isStopped)),
      },
    ]
  })
}
