import { impossible, record, type Decision } from './decision.ts'
import type { VeinReason } from './events.ts'
import * as draw from './facts.ts'
import type { DrawState } from './state.ts'

/** Blood is still wanted that a finger or heel has not given, or cannot give. */
const wantsMoreThanSkin = (s: DrawState): boolean =>
  draw.waitingTubes(s).length > 0 || s.plan.uncovered.length > 0

/**
 * From a finger or heel on to a vein, for what is still missing: the place that was lanced is closed first. A site, a
 * set and a plan of its own follow. That too little blood and tests that skin does not give go to a vein is what
 * training pages of the trade say (labce.com, excerpt); who decides it is local policy.
 */
export function goToVein(s: DrawState, why: VeinReason): Decision {
  if (s.closed) return impossible('closed')
  if (s.colleagueTook) return impossible('colleagueUnnamed')
  if (!draw.bodyIsSafe(s)) return impossible('notSafeYet')
  if (draw.sharpIsLoose(s)) return impossible('sharpOpen')
  if (draw.woundIsOpen(s)) return impossible('stillBleeding')
  if (draw.severeIsOpen(s)) return impossible('severeOpen')
  if (draw.drawIsEnding(s) || s.noMore) return impossible('noFurtherPuncture')
  if (!wantsMoreThanSkin(s)) return impossible('noTubeLeft')
  if (draw.wasPricked(s)) return impossible('colleagueUnnamed')
  const number = s.puncture.number + 1
  return record({ type: 'wentToVein', why }, { type: 'punctureBegun', number })
}
