import { age_years } from '../bloodLimit/age.ts'
import { limit } from '../policy/policy.ts'
import { calendarDate } from '../time/format.ts'
import type { DrawState } from './state.ts'

export type LancetDepth = 'premature' | 'heel' | 'child' | 'finger'

/**
 * How deep the lancet may go: 0.85 mm for a premature newborn, 2.4 mm in a finger (WHO guidelines on drawing blood
 * 2010, as quoted); 1.5 mm under 8 years (the same, from memory); a heel 2.0 mm at most, since the bone of a small one
 * lies as near (training pages of the trade, stricter than the 2.4 mm of the WHO).
 */
export function lancetDepth({ opened, openedAt }: DrawState): LancetDepth {
  const { collecting, patient, policy } = opened
  if (collecting === 'capillaryHeel') {
    return patient.weight_kg !== undefined && patient.weight_kg < limit(policy, 'smallHeel_kg')
      ? 'premature'
      : 'heel'
  }
  const years = age_years(patient.birthDate, calendarDate(openedAt))
  return years !== undefined && years < limit(policy, 'childFinger_y') ? 'child' : 'finger'
}
