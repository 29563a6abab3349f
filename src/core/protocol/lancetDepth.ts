import { limit } from '../policy/policy.ts'
import { isYounger } from './isYounger.ts'
import type { DrawState } from './state.ts'

export type LancetDepth = 'premature' | 'heel' | 'child' | 'finger'

/**
 * How deep the lancet may go: 0.85 mm for a premature newborn, 2.4 mm in a finger (WHO guidelines on drawing blood
 * 2010, as quoted); 1.5 mm under 8 years (the same, from memory); a heel 2.0 mm at most, since the bone of a small one
 * lies as near (training pages of the trade, stricter than the 2.4 mm of the WHO).
 */
export function lancetDepth(s: DrawState): LancetDepth {
  const { collecting, patient, policy } = s.opened
  if (collecting === 'capillaryHeel') {
    return patient.weight_kg !== undefined && patient.weight_kg < limit(policy, 'smallHeel_kg')
      ? 'premature'
      : 'heel'
  }
  return isYounger(s, 'childFinger_y') ? 'child' : 'finger'
}
