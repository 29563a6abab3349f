import type { Sha256 } from '../log/seal.ts'
import type { Plan } from '../plan/plan.ts'
import { carriedOut, questionOf, type Question } from '../protocol/dialog.ts'
import type { DrawLog, Source } from '../protocol/entry.ts'
import type { DrawOpened } from '../protocol/events.ts'
import type { DrawState } from '../protocol/state.ts'
import type { Reading } from '../time/stamp.ts'
import { commandOfDoing } from './commandOfDoing.ts'
import { plansFurther } from './plansFurther.ts'
import type { Scenario, Via } from './scenario.ts'
import { createSimulatedDraw } from './simulatedDraw.ts'

/** How a line of a script reaches the draw. */
export const VIA_SOURCE: Readonly<Record<Via, Source>> = {
  say: 'voice',
  touch: 'touch',
  key: 'keys',
  scan: 'scanner',
  write: 'touch',
}

/**
 * The draw as its script has it, played from the first line to the last under a clock of its own: what somebody leaves
 * behind who does all of it at its time. A page that goes down, sleeps or has its clock set is left out, since no
 * trainee can do that; time passes there all the same.
 */
export function playScript(
  { lines }: Pick<Scenario, 'lines'>,
  opening: DrawOpened,
  sha256: Sha256,
  start?: Reading,
  planAgain?: (s: DrawState) => Plan | undefined,
): DrawLog {
  const draw = createSimulatedDraw(opening, sha256, start)
  let question: Question | undefined
  let at_ms = 0
  for (const line of lines) {
    if (line.at_ms > at_ms) draw.advance(line.at_ms - at_ms)
    at_ms = Math.max(at_ms, line.at_ms)
    if (line.kind !== 'do') continue
    const found = commandOfDoing(line.doing, draw.state(), draw.now())
    if ('none' in found) continue
    const given = carriedOut(question, { command: found.command, source: VIA_SOURCE[line.via] })
    question = undefined
    if (!given) continue
    const from = draw.state().collecting
    const decision = draw.dispatch(given.command, given.source, undefined, given.confirmed)
    question = questionOf(decision, given)
    if (decision.kind !== 'record') continue
    for (const why of plansFurther(given.command.type, from, draw.state())) {
      const plan = planAgain?.(draw.state())
      if (plan) draw.dispatch({ type: 'revisePlan', plan, why }, 'app')
    }
  }
  const { drawId } = opening
  return { format: 'stillhand-log', version: 1, drawId, entries: draw.log() }
}
