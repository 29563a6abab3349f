import { record, impossible, type Decision } from './decision.ts'
import { defined } from '../basics/defined.ts'
import type { DrawEvent, EndReason, Outcome } from './events.ts'
import * as draw from './facts.ts'
import type { DrawState } from './state.ts'

/**
 * Ends the draw, or the part of it that draws blood. A draw is never closed with the band on, a tube on, the needle
 * in or out of the sharps box, bleeding not stopped, the patient's identity open after a needle, or specimens without
 * labels and rack. Blood of somebody else (an identity that did not match) is neither labeled nor racked.
 */
export function closing(
  s: DrawState,
  command: 'endDraw' | 'specimensRacked',
  confirmed: boolean,
  because?: EndReason,
): Decision {
  const isUnfinished = command === 'endDraw' && needsReason(s)
  const ask = isUnfinished ? 'endUnfinished' : 'endDraw'
  const reason = isUnfinished ? (because ?? 'notSaid') : undefined
  if (s.closed) return impossible('closed')
  if (!draw.bodyIsSafe(s)) return impossible('notSafeYet')
  if (s.colleagueTook) return impossible('colleagueUnnamed')
  const stuck = draw.attemptsInAll(s) > 0
  if (draw.woundIsOpen(s)) return impossible('stillBleeding')
  if (draw.sharpIsLoose(s)) return impossible('sharpOpen')
  if (command === 'endDraw' && draw.goesToLaboratory(s)) {
    if (!draw.isPaused(s)) return impossible('specimensOpen')
    return confirmed
      ? record(defined({ type: 'noFurtherPuncture' as const, reason }))
      : { kind: 'ask', ask }
  }
  if (stuck && !draw.identityAnswered(s)) return impossible('identityOpen')
  if (command === 'specimensRacked' && !draw.goesToLaboratory(s)) return impossible('noSpecimens')
  if (command === 'specimensRacked' && draw.unlabelledIsOpen(s)) return impossible('unlabelledOpen')
  if (command === 'specimensRacked' && !s.labelsDone) return impossible('specimensOpen')
  if ((command === 'endDraw' || draw.isPaused(s)) && !confirmed) return { kind: 'ask', ask }
  const racked: DrawEvent[] = command === 'specimensRacked' ? [{ type: 'specimensRacked' }] : []
  return record(...racked, defined({ type: 'drawClosed' as const, outcome: outcomeOf(s), reason }))
}

/** Tubes are missing, and nothing that happened says why. */
const needsReason = (s: DrawState): boolean =>
  draw.waitingTubes(s).length > 0 &&
  !s.noMore &&
  !draw.drawIsEnding(s) &&
  !s.seen.includes('identityMismatch')

function outcomeOf(s: DrawState): Outcome {
  if (!draw.anyBlood(s))
    return draw.attemptsInAll(s) > 0 && draw.drawIsEnding(s) ? 'stopped' : 'notDrawn'
  if (draw.waitingTubes(s).length === 0 && draw.goesToLaboratory(s)) return 'complete'
  return draw.drawIsEnding(s) ? 'stopped' : 'partial'
}
