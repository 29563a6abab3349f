import { GAUGES, NEEDLE_KINDS, type Gauge, type NeedleKind } from '../order/order.ts'
import type { StockTube, TubeRow } from './catalogue.ts'

/** In a stock, labels of the printer. */
export const LABEL_CODE = 'label'

/** In a stock, a needle set: `winged21`. */
export const setCode = (kind: NeedleKind, gauge: Gauge): string => `${kind}${gauge}`

/** What a stock may count besides tubes, under the codes that it has in the column of the tube. */
export const SUPPLY_CODES: readonly string[] = [
  ...NEEDLE_KINDS.flatMap((kind) => GAUGES.map((gauge) => setCode(kind, gauge))),
  LABEL_CODE,
]

/** Whether a row of a stock counts a needle set or labels. A tube of the site that bears such a code comes first. */
export const isOtherSupply = (
  { tubeCode }: Pick<StockTube, 'tubeCode'>,
  tubes: readonly TubeRow[],
): boolean => SUPPLY_CODES.includes(tubeCode) && !tubes.some(({ code }) => code === tubeCode)
