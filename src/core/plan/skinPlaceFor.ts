import { age_months } from '../bloodLimit/age.ts'
import type { SkinPlace } from '../order/collecting.ts'
import { limit, type Policy } from '../policy/policy.ts'

export const SKIN_PLACE_SOURCE =
  'training pages of the trade; WHO guidelines on drawing blood 2010 change to the finger at about six months, as quoted'

/** The heel of an infant, whose finger is not lanced, and from then on the finger; both dates `YYYY-MM-DD`. */
export function skinPlaceFor(birthDate: string, today: string, policy: Policy): SkinPlace {
  const months = age_months(birthDate, today)
  return months !== undefined && months < limit(policy, 'heelBelow_mo')
    ? 'capillaryHeel'
    : 'capillaryFinger'
}
