import { limit_ms } from '../policy/policy.ts'
import { elapsed, stampAfter, type Reading, type Stamp } from '../time/stamp.ts'
import { bandsHere, currentBand } from './facts.ts'
import type { DrawState } from './state.ts'

/** The longest the band can have been on this time, ms; 0 while it is off. */
export function bandElapsed_ms(s: DrawState, now: Reading): number {
  const band = currentBand(s)
  return band ? elapsed(band.on, stampAfter(s.last?.at, now)).most_ms : 0
}

/**
 * The arm needs its rest before the band goes on again: it was under the band longer than the limit. A short
 * stretch, as for finding the vein, asks for none ("if more than one minute, re-apply after two": CLSI GP41 as
 * summarized in training texts). Stretches with less than the rest between them count as one (common practice, no
 * source).
 */
export function bandNeedsRest(s: DrawState): boolean {
  const { policy } = s.opened
  const rest_ms = limit_ms(policy, 'bandRest_s')
  let under_ms = 0
  let off: Stamp | undefined
  for (const band of bandsHere(s)) {
    if (off && elapsed(off, band.on).least_ms >= rest_ms) under_ms = 0
    if (band.off) under_ms += elapsed(band.on, band.off).most_ms
    off = band.off
  }
  return under_ms > limit_ms(policy, 'bandLimit_s')
}
