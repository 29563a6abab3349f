import type { Stamp } from '../time/stamp.ts'
import type { Ask } from './asks.ts'
import type { Command } from './commands.ts'
import type { DrawEvent, Flag } from './events.ts'
import type { Impossible } from './impossible.ts'
import type { DrawState } from './state.ts'

export type Test = (s: DrawState, now: Stamp) => boolean

/** One command: when it cannot be true, what is flagged with it, whether it is asked twice, and what it records. */
export interface Rule {
  readonly impossible?: readonly (readonly [Test, Impossible])[]
  readonly flags?: readonly (readonly [Test, Flag])[]
  readonly ask?: readonly (readonly [Test, Ask])[]
  /** What no to that question means, where it means more than leaving it. */
  readonly otherwise?: (s: DrawState) => Command | undefined
  readonly records: (s: DrawState, now: Stamp) => readonly DrawEvent[]
}

/** Records that one event, whatever the state. */
export const fact = (event: DrawEvent) => (): readonly DrawEvent[] => [event]

export const not =
  (test: Test): Test =>
  (s, now) =>
    !test(s, now)
