import type { Command } from '../../../src/core/protocol/commands.ts'
import { commandOf } from '../../../src/core/protocol/openCommands.ts'
import { stepOf, type StepId } from '../../../src/core/protocol/steps.ts'
import { nextByTheScreen } from '../../support/drawDriver.ts'
import { abstractState } from '../../walk/abstractState.ts'
import { tried, waited, type Moment } from './moment.ts'

/** How long a person takes for a step, s; where nothing is said, three. */
const TAKES_s: Readonly<Partial<Record<StepId, number>>> = {
  dry: 31,
  filling: 6,
  drops: 20,
  warm: 185,
  bleeding: 125,
  bandage: 12,
  handled: 40,
  spin: 1800,
}

/** Most steps of one draw. */
const MOST_n = 90

/**
 * The draw goes on as the screen asks from a moment to its end: every moment before something is done.
 * @param seen keys of states that were come to before, where the way joins another and ends; the new ones are added
 */
export function followed(from: Moment, seen = new Set<string>()): readonly Moment[] {
  const moments: Moment[] = [from]
  seen.add(abstractState(from.state))
  for (let moment = from, n = 0; n < MOST_n; n++) {
    const next = nextOf(moment)
    const key = next && abstractState(next.state)
    if (!next || key === undefined || seen.has(key)) break
    seen.add(key)
    moment = next
    moments.push(moment)
  }
  return moments
}

/** The moment after what the screen asks for, three seconds on; while something must be waited for, after that. */
function nextOf(moment: Moment): Moment | undefined {
  const { id } = stepOf(moment.state)
  const ready = waited(moment, (TAKES_s[id] ?? 3) * 1000)
  for (const asked of nextByTheScreen(ready.state)) {
    const command: Command = typeof asked === 'string' ? commandOf(asked) : asked
    const { moment: next, decision } = tried(ready, command, { confirmed: true })
    if (decision.kind === 'record') return waited(next, 1000)
  }
  return undefined
}
