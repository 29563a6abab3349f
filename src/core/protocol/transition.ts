import { defined } from '../basics/defined.ts'
import { stampAfter, type Reading, type Stamp } from '../time/stamp.ts'
import type { Command } from './commands.ts'
import { decide } from './decide.ts'
import type { Decision } from './decision.ts'
import type { LogEntry, Source, UnsealedEntry } from './entry.ts'
import type { DrawEvent, DrawOpened } from './events.ts'
import { evolve } from './evolve.ts'
import { openedBy } from './openedBy.ts'
import type { DrawState } from './state.ts'

/** Closes an entry onto the one before it. How, is the log's affair. */
export type Seal = (entry: UnsealedEntry, previous: LogEntry | undefined) => LogEntry

/** How a command came in. */
export interface Incoming {
  readonly now: Reading
  readonly source: Source
  /** The words that were heard, for what was said. */
  readonly transcript?: string | undefined
  /** The question that the command raises has been answered with yes. */
  readonly confirmed?: boolean | undefined
  /** It was said while the ears were held open. */
  readonly held?: true | undefined
}

/** What a command brings about: the decision, the entries to be logged, and the state once they are. */
export interface Transition {
  readonly decision: Decision
  readonly entries: readonly LogEntry[]
  readonly state: DrawState
}

/** The step from one state to the next, for the session, the simulation and the walk alike. Pure. */
export function transition(
  s: DrawState,
  command: Command,
  incoming: Incoming,
  seal: Seal,
): Transition {
  const at = stampAfter(s.last.at, incoming.now)
  const decision = decide(s, command, at, incoming.confirmed)
  const events = decision.kind === 'record' ? decision.events : []
  const entries: LogEntry[] = []
  for (const event of events) {
    const previous = entries.at(-1) ?? s.last
    const entry = entryOf(event, at, authorOf(command, s), incoming, previous.seq + 1)
    entries.push(seal(entry, previous))
  }
  return { decision, entries, state: entries.reduce(evolve, s) }
}

/** Specimens are handled at the bench by others than who drew, and charted by whatever device has the draw. */
const authorOf = (command: Command, { collector }: DrawState): string =>
  ('actor' in command && command.actor) || collector.id

/** The first entry of a draw and the state that it opens. */
export function openDraw(
  opening: DrawOpened,
  now: Reading,
  seal: Seal,
): { readonly entry: LogEntry; readonly state: DrawState } {
  const at = stampAfter(undefined, now)
  const entry = seal(
    entryOf(opening, at, opening.collector.id, { now, source: 'app' }, 1),
    undefined,
  )
  return { entry, state: openedBy(opening, entry) }
}

function entryOf(
  event: DrawEvent,
  at: Stamp,
  by: string,
  { source, transcript, held }: Incoming,
  seq: number,
): UnsealedEntry {
  return defined({ seq, at, by, source, heard: transcript, held, event })
}
