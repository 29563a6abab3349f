import type { StockTube, TubeRow } from '../catalogue/catalogue.ts'
import { isOtherSupply, LABEL_CODE, setCode } from '../catalogue/otherSupplies.ts'
import { GAUGES, NEEDLE_KINDS, type NeedleSet } from '../order/order.ts'
import type { PlannedTube } from '../plan/plan.ts'
import type { PlanInput } from '../plan/planInput.ts'
import { planSittings } from '../plan/planSittings.ts'

/** What one draw of the list needs, all its sittings together. */
export interface DrawNeeds {
  readonly tubes: readonly Pick<PlannedTube, 'tubeCode' | 'role'>[]
  /** One for each puncture of a vein; empty where drops are collected. */
  readonly sets: readonly Pick<NeedleSet, 'kind' | 'gauge'>[]
  /** The plan has a stop or leaves a test without a tube: there may be more to get ready. */
  readonly isStopped: boolean
}

/** What is on hand of one kind. */
export interface Counted {
  /** On hand and usable today: a tube may be used through its last day. */
  readonly onHand: number
  readonly shortBy: number
  /** Of `onHand`, those whose last day is today or within `SOON_days`, and the first of these days, `YYYY-MM-DD`. */
  readonly expiring: number
  readonly firstExpiry?: string
  /** On hand and past their day: not counted. */
  readonly expired: number
}

/** What is needed of one kind against what is there. */
export interface Supply {
  readonly needed: number
  /** Only where somebody counts. */
  readonly counted?: Counted
}

/** One kind of tube. */
export interface TubeSupply extends Supply {
  readonly tubeCode: string
}

/** One kind of needle set. */
export interface SetSupply extends Supply, Pick<NeedleSet, 'kind' | 'gauge'> {}

/** What the list needs. Sets and labels are held against a stock that counts any of them. */
export interface Supplies {
  readonly tubes: readonly TubeSupply[]
  readonly sets: readonly SetSupply[]
  /** One for each specimen; a discard tube gets none. */
  readonly labels: Supply
}

/** How far ahead expiry is told, days. Common practice, no source. */
export const SOON_days = 7
const DAY_ms = 86_400_000

/**
 * What a draw needs, by the plan that its order would get now. Tubes that the stock lacks are needed all the same: a
 * plan that leaves tests without a tube for want of stock is made again as if all tubes were there. `undefined` where
 * the plan comes to no tube at all.
 */
export function drawNeeds(input: PlanInput): DrawNeeds | undefined {
  const stocked = planSittings(input)
  const isWanting = lacking(stocked) > 0 && input.stock !== undefined
  const free = isWanting ? planSittings({ ...input, stock: undefined }) : stocked
  const sittings = lacking(free) < lacking(stocked) ? free : stocked
  const tubes = sittings.flatMap(({ plan }) => plan.tubes)
  if (tubes.length === 0) return undefined
  return {
    tubes,
    sets: input.collecting ? [] : sittings.map(() => input.needleSet),
    isStopped: lacking(sittings) > 0 || sittings.some(({ plan }) => plan.problems.length > 0),
  }
}

const lacking = (sittings: ReturnType<typeof planSittings>): number =>
  sittings.reduce((sum, { plan }) => sum + plan.uncovered.length, 0)

/**
 * The draws together against the stock. What has expired or soon will is told also of tubes that no draw needs.
 * @param stock `undefined` where nobody counts: then only what is needed is told
 * @param today local date, `YYYY-MM-DD`
 * @param siteTubes a code of theirs is never that of a set or of labels
 */
export function suppliesOf(
  draws: readonly DrawNeeds[],
  stock: readonly StockTube[] | undefined,
  today: string,
  siteTubes: readonly TubeRow[] = [],
): Supplies {
  const tubes = draws.flatMap((draw) => draw.tubes)
  const sets = draws.flatMap((draw) => draw.sets)
  const isOther = (lot: StockTube): boolean => isOtherSupply(lot, siteTubes)
  const lots = stock?.filter((lot) => lot.count > 0 && !isOther(lot))
  const others = stock?.filter(isOther) ?? []
  const otherOf = (needed: number, code: string, isCounted: boolean): Supply => {
    const own = others.filter(({ tubeCode, count }) => tubeCode === code && count > 0)
    return { needed, ...(isCounted && { counted: countedOf(own, needed, today) }) }
  }
  const countsSets = others.some(({ tubeCode }) => tubeCode !== LABEL_CODE)
  const countsLabels = others.some(({ tubeCode }) => tubeCode === LABEL_CODE)
  const codes = new Set([...tubes, ...(lots ?? [])].map(({ tubeCode }) => tubeCode))
  const rows = [...codes].sort().map((tubeCode): TubeSupply => {
    const needed = tubes.filter((tube) => tube.tubeCode === tubeCode).length
    const own = lots?.filter((lot) => lot.tubeCode === tubeCode)
    return { tubeCode, needed, ...(own && { counted: countedOf(own, needed, today) }) }
  })
  return {
    tubes: rows.filter(isTold),
    sets: NEEDLE_KINDS.flatMap((kind) =>
      GAUGES.flatMap((gauge): SetSupply[] => {
        const needed = sets.filter((set) => set.kind === kind && set.gauge === gauge).length
        const supply = otherOf(needed, setCode(kind, gauge), countsSets)
        return isTold(supply) ? [{ kind, gauge, ...supply }] : []
      }),
    ),
    labels: otherOf(
      tubes.filter(({ role }) => role !== 'discard').length,
      LABEL_CODE,
      countsLabels,
    ),
  }
}

/** What has expired or soon will is told also of what no draw needs. */
const isTold = ({ needed, counted }: Supply): boolean =>
  needed > 0 || (counted !== undefined && (counted.expiring > 0 || counted.expired > 0))

function countedOf(lots: readonly StockTube[], needed: number, today: string): Counted {
  const good = lots.filter(({ expires }) => expires >= today)
  const soon = dayAfter(today, SOON_days)
  const expiring = good.filter(({ expires }) => expires <= soon)
  const [firstExpiry] = expiring.map(({ expires }) => expires).sort()
  const onHand = total(good)
  return {
    onHand,
    shortBy: Math.max(0, needed - onHand),
    expiring: total(expiring),
    ...(firstExpiry !== undefined && { firstExpiry }),
    expired: total(lots) - onHand,
  }
}

const total = (lots: readonly StockTube[]): number =>
  lots.reduce((sum, { count }) => sum + count, 0)

const dayAfter = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * DAY_ms).toISOString().slice(0, 10)
