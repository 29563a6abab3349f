import { ASKS, type Ask } from '../../../src/core/protocol/asks.ts'
import { decide } from '../../../src/core/protocol/decide.ts'
import { stampAfter } from '../../../src/core/time/stamp.ts'
import { walkCommands } from '../../walk/walkCommands.ts'
import { tried, type Moment } from './moment.ts'

/** Each question once, with the moment at which it stands on the screen. */
export function questions(ways: readonly (readonly Moment[])[]): ReadonlyMap<Ask, Moment> {
  const found = new Map<Ask, Moment>()
  for (const moment of ways.flat()) {
    if (found.size === ASKS.length) break
    const at = stampAfter(moment.state.last.at, moment.now)
    for (const command of walkCommands(moment.state)) {
      const decision = decide(moment.state, command, at)
      if (decision.kind !== 'ask' || found.has(decision.ask)) continue
      found.set(decision.ask, tried(moment, command).moment)
    }
  }
  return found
}
