import { record, senseless, type Decision } from './decision.ts'
import type { DrawEvent, Outcome } from './events.ts'
import * as is from './facts.ts'
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
): Decision {
  if (s.closed) return senseless('closed')
  if (!is.bodyIsSafe(s)) return senseless('notSafeYet')
  const stuck = is.attemptsInAll(s) > 0
  if (is.woundIsOpen(s)) return senseless('stillBleeding')
  if (is.sharpIsLoose(s)) return senseless('sharpOpen')
  if (command === 'endDraw' && is.goesToLaboratory(s)) {
    if (!is.isPaused(s)) return senseless('specimensOpen')
    return confirmed ? record({ type: 'noFurtherPuncture' }) : { kind: 'ask', ask: 'endDraw' }
  }
  if (stuck && !is.identityAnswered(s)) return senseless('identityOpen')
  if (command === 'specimensRacked' && !is.goesToLaboratory(s)) return senseless('noSpecimens')
  if (command === 'specimensRacked' && !s.labelsDone) return senseless('specimensOpen')
  if ((command === 'endDraw' || is.isPaused(s)) && !confirmed)
    return { kind: 'ask', ask: 'endDraw' }
  const racked: DrawEvent[] = command === 'specimensRacked' ? [{ type: 'specimensRacked' }] : []
  return record(...racked, { type: 'drawClosed', outcome: outcomeOf(s) })
}

function outcomeOf(s: DrawState): Outcome {
  if (!is.anyBlood(s)) return is.attemptsInAll(s) > 0 && is.drawIsEnding(s) ? 'stopped' : 'notDrawn'
  if (is.waitingTubes(s).length === 0 && is.goesToLaboratory(s)) return 'complete'
  return is.drawIsEnding(s) ? 'stopped' : 'partial'
}
