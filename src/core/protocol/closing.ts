import { record, senseless, type Decision } from './decision.ts'
import type { DrawEvent, Outcome } from './events.ts'
import * as is from './facts.ts'
import type { DrawState } from './state.ts'

/**
 * Ends the draw, or the part of it that draws blood. A draw is never closed with the band on, a tube on, the needle
 * in, bleeding not stopped, the patient's identity open after a needle, or specimens without labels and rack.
 */
export function closing(
  s: DrawState,
  command: 'endDraw' | 'specimensRacked',
  confirmed: boolean,
): Decision {
  if (s.closed) return senseless('closed')
  if (!is.bodyIsSafe(s)) return senseless('notSafeYet')
  const stuck = is.attemptsInAll(s) > 0
  if (s.puncture.needleOut && !s.puncture.bleedingStopped) return senseless('stillBleeding')
  if (command === 'endDraw' && !confirmed) return { kind: 'ask', ask: 'endDraw' }
  if (command === 'endDraw' && is.anyBlood(s)) {
    return s.noMore || is.waitingTubes(s).length === 0
      ? senseless('specimensOpen')
      : record({ type: 'noFurtherPuncture' })
  }
  if (stuck && !is.identityAnswered(s)) return senseless('identityOpen')
  if (command === 'specimensRacked' && !is.anyBlood(s)) return senseless('noSpecimens')
  if (command === 'specimensRacked' && !s.labelsDone) return senseless('specimensOpen')
  const racked: DrawEvent[] = command === 'specimensRacked' ? [{ type: 'specimensRacked' }] : []
  return record(...racked, { type: 'drawClosed', outcome: outcomeOf(s) })
}

function outcomeOf(s: DrawState): Outcome {
  if (!is.anyBlood(s)) return is.attemptsInAll(s) > 0 && is.drawIsEnding(s) ? 'stopped' : 'notDrawn'
  if (is.waitingTubes(s).length === 0) return 'complete'
  return is.drawIsEnding(s) ? 'stopped' : 'partial'
}
