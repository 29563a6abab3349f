import type { DrawLog } from '../../src/core/protocol/entry.ts'
import type { Sha256 } from '../../src/core/log/seal.ts'
import type { Command, CommandKey } from '../../src/core/protocol/commands.ts'
import { answersTo } from '../../src/core/protocol/asks.ts'
import { carriedOut, questionOf, type Question } from '../../src/core/protocol/dialog.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import type { DrawOpened } from '../../src/core/protocol/events.ts'
import type { DrawState } from '../../src/core/protocol/state.ts'
import type { Reading } from '../../src/core/time/stamp.ts'
import { checkExpectation } from './checkExpectation.ts'
import type { Moment, ScenarioWords } from './scenarioWords.ts'
import { commandOfDoing, openNow } from '../../src/core/scenario/commandOfDoing.ts'
import { plansFurther } from '../../src/core/scenario/plansFurther.ts'
import { VIA_SOURCE } from '../../src/core/scenario/playScript.ts'
import type { Scenario, ScenarioLine } from '../../src/core/scenario/scenario.ts'
import { createSimulatedDraw, type SimulatedDraw } from '../../src/core/scenario/simulatedDraw.ts'

/** A line that did not go as the script says. */
export interface ScenarioFault {
  readonly line: number
  readonly expected: string
  readonly found: string
}

export interface ScenarioRun {
  readonly log: DrawLog
  readonly state: DrawState
  readonly faults: readonly ScenarioFault[]
  /** Where the clocks stood at its end. */
  readonly end: Reading
}

/**
 * Plays a scenario from its first line to its last and holds it to what it expects. What is said must be open to the
 * voice at that moment, as it would have to be at the chair.
 */
export function runScenario(
  scenario: Pick<Scenario, 'lines'>,
  opening: DrawOpened,
  words: ScenarioWords,
  sha256: Sha256,
  start?: Reading,
  planAgain?: (s: DrawState) => Plan | undefined,
): ScenarioRun {
  const draw = createSimulatedDraw(opening, sha256, start)
  const faults: ScenarioFault[] = []
  let question: Question | undefined
  let refused: string | undefined
  let since = 1
  let at_ms = 0

  function act(line: ScenarioLine & { readonly kind: 'do' }): void {
    const found = commandOfDoing(line.doing, draw.state(), draw.now())
    if ('none' in found) {
      const why =
        found.none === 'tube'
          ? `the rack has no tube ${found.number}`
          : 'no button has that key now'
      faults.push({ line: line.line, expected: `${line.via} ${line.text}`, found: why })
      return
    }
    const { command, key } = found
    const given = carriedOut(question, { command, source: VIA_SOURCE[line.via] })
    const isAnswer = key !== undefined && answersTo(question?.ask).includes(key)
    question = undefined
    if (!given) return
    if (line.via === 'say' && key && !given.confirmed && !isAnswer && !isOpen(key, draw)) {
      const found = 'cannot be said at this moment'
      faults.push({ line: line.line, expected: `say ${line.text}`, found })
    }
    const transcript = line.via === 'say' ? line.text : undefined
    const from = draw.state().collecting
    const decision = draw.dispatch(given.command, given.source, transcript, given.confirmed)
    if (decision.kind === 'record') planFurther(given.command.type, from)
    refused = decision.kind === 'impossible' ? words.impossible[decision.why] : undefined
    question = questionOf(decision, given)
  }

  /** As the app does: another way of collecting, a further needle and another set have a plan of their own. */
  function planFurther(type: Command['type'], from: DrawState['collecting']): void {
    const why = plansFurther(type, from, draw.state())
    for (const reason of why) {
      const plan = planAgain?.(draw.state())
      if (plan) draw.dispatch({ type: 'revisePlan', plan, why: reason }, 'app')
    }
  }

  for (const line of scenario.lines) {
    const wait_ms = line.at_ms - at_ms
    if (wait_ms > 0) {
      since = draw.log().length + 1
      draw.advance(wait_ms)
      at_ms = line.at_ms
    }
    if (line.kind === 'expect') {
      const moment: Moment = { draw, ask: question?.ask, refused, since }
      const fault = checkExpectation(line.what, line.text, moment, words)
      if (fault !== undefined) {
        faults.push({ line: line.line, expected: `${line.what} ${line.text}`, found: fault })
      }
      continue
    }
    if (line.kind === 'tell' || line.kind === 'wait') continue
    since = wait_ms > 0 ? since : draw.log().length + 1
    refused = undefined
    if (line.kind === 'do') act(line)
    else if (line.kind === 'clock') draw.setClock(line.by_ms)
    else {
      draw.beAway(line.kind, line.away_ms)
      // The script's time is the time in the room, so the next line counts from the waking.
      at_ms += line.away_ms
    }
  }
  const log: DrawLog = {
    format: 'stillhand-log',
    version: 1,
    drawId: opening.drawId,
    entries: draw.log(),
  }
  return { log, state: draw.state(), faults, end: draw.now() }
}

function isOpen(key: CommandKey, draw: SimulatedDraw): boolean {
  const open = openNow(draw.state(), draw.now())
  return [open.main, ...open.step, ...open.always].includes(key)
}
