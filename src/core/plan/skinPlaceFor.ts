import { age_years } from '../bloodLimit/age.ts'
import type { SkinPlace } from '../order/collecting.ts'

/**
 * The heel is for infants under a year, and no finger of theirs is lanced (training pages of the trade; the WHO
 * guidelines of 2010 change from heel to finger at about six months and 10 kg: the stricter is kept for the finger).
 */
const HEEL_BELOW_y = 1

export const SKIN_PLACE_SOURCE =
  'training pages of the trade; WHO guidelines on drawing blood 2010 change to the finger at about six months, as quoted'

/** The place to lance at an age; both dates `YYYY-MM-DD`. */
export function skinPlaceFor(birthDate: string, today: string): SkinPlace {
  const years = age_years(birthDate, today)
  return years !== undefined && years < HEEL_BELOW_y ? 'capillaryHeel' : 'capillaryFinger'
}
