import { elapsed, stampAfter, type Reading } from '../time/stamp.ts'
import { currentBand } from './facts.ts'
import type { DrawState } from './state.ts'

/** The longest the band can have been on this time, ms; 0 while it is off. */
export function bandElapsed_ms(s: DrawState, now: Reading): number {
  const band = currentBand(s)
  return band ? elapsed(band.on, stampAfter(s.last?.at, now)).most_ms : 0
}
