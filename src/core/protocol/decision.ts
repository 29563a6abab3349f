import type { Command } from './commands.ts'
import type { DrawEvent } from './events.ts'
import type { Ask } from './asks.ts'
import type { Impossible } from './impossible.ts'

/** What comes of a command: events to log, or why it cannot be so, or a question to answer first. */
export type Decision =
  | { readonly kind: 'record'; readonly events: readonly DrawEvent[] }
  | { readonly kind: 'impossible'; readonly why: Impossible }
  | {
      readonly kind: 'ask'
      readonly ask: Ask
      /** What no means, where it means more than leaving it. */
      readonly otherwise?: Command
    }

export const record = (...events: readonly DrawEvent[]): Decision => ({ kind: 'record', events })
export const impossible = (why: Impossible): Decision => ({ kind: 'impossible', why })
