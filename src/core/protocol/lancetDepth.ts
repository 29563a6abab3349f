import { age_years } from '../bloodLimit/age.ts'
import { calendarDate } from '../time/format.ts'
import type { DrawState } from './state.ts'

export type LancetDepth = 'premature' | 'heel' | 'child' | 'finger'

/** Below this a baby counts as small for a heel device, kg (common practice, no source). */
const SMALL_BELOW_kg = 2.5
const CHILD_BELOW_y = 8

/**
 * How deep the lancet may go: 0.85 mm for a premature newborn, 2.4 mm in a finger (WHO guidelines on drawing blood
 * 2010, as quoted); 1.5 mm under 8 years (the same, from memory); a heel 2.0 mm at most, since the bone of a small one
 * lies as near (training pages of the trade, stricter than the 2.4 mm of the WHO).
 */
export function lancetDepth({ opened, openedAt }: DrawState): LancetDepth {
  const { collecting, patient } = opened
  if (collecting === 'capillaryHeel') {
    return patient.weight_kg !== undefined && patient.weight_kg < SMALL_BELOW_kg
      ? 'premature'
      : 'heel'
  }
  const years = age_years(patient.birthDate, calendarDate(openedAt))
  return years !== undefined && years < CHILD_BELOW_y ? 'child' : 'finger'
}
