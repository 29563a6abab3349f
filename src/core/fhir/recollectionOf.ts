import type { Recollects } from '../order/order.ts'
import { REJECT_REASONS } from '../protocol/benchEvents.ts'
import type { CodeableConcept } from './resources.ts'
import { rejectReason } from './specimenWay.ts'

/** Why it is drawn again: the laboratory's reason, and which specimens of which draw. */
export function recollectionOf({ drawId, tubeIds, reason }: Recollects): CodeableConcept {
  const text = [drawId, ...tubeIds].join(' ')
  const code = REJECT_REASONS.find((known) => known === reason)
  return code ? { coding: [rejectReason(code)], text } : { text }
}
