import type { NeedleSet } from '../order/order.ts'
import { setKey } from './setKey.ts'

/** A site's own word for one set: tubes take so much longer than is predicted, as it measured and somebody accepted. */
export interface FillCorrection {
  /** As `setKey` writes it. */
  readonly set: string
  readonly factor: number
  /** Who accepted it. */
  readonly by: string
  /** ms since 1970 UTC. */
  readonly at_ms: number
  /** So many tubes it was measured on. */
  readonly tubes: number
}

/**
 * Further from 1 than this it is no longer the set that is measured: tubes are called full late, or another set was in
 * the hand than the one on record (common practice, no source).
 */
const CORRECTION_RANGE = [0.5, 2] as const

export const isCorrection = (factor: number): boolean =>
  factor >= CORRECTION_RANGE[0] && factor <= CORRECTION_RANGE[1]

/** By how much filling through that set is corrected; 1 where nobody accepted anything for it. */
export function correctionOf(
  corrections: readonly FillCorrection[] | undefined,
  set: NeedleSet,
): number {
  const key = setKey(set)
  // A foreign record may hold anything.
  return corrections?.findLast((each) => each.set === key && isCorrection(each.factor))?.factor ?? 1
}
