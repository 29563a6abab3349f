import type { Command } from '../../../src/core/protocol/commands.ts'
import { dueCues } from '../../../src/core/protocol/dueCues.ts'
import { openCommands, type OpenCommands } from '../../../src/core/protocol/openCommands.ts'
import { stepOf } from '../../../src/core/protocol/steps.ts'
import { stampAfter } from '../../../src/core/time/stamp.ts'
import { walkCommands } from '../../walk/walkCommands.ts'
import { followed } from './followed.ts'
import { tried, waited, type Moment } from './moment.ts'

/** A way that leaves what the screen asks for once, and then follows it. */
export interface Departure {
  /** `faint`, `chooseArm:left`, `settleUnlabelled t1 discarded`. */
  readonly name: string
  /** The step at which it was said. */
  readonly at: string
  /** The moment it leads to, and those that follow from it. */
  readonly moments: readonly Moment[]
}

/** A command as a short name. */
export function nameOf(command: Command): string {
  if (command.type === 'giveCue') return `${command.cue.kind} ${command.cue.cue}`
  const said = Object.values(command).filter((value) => typeof value === 'string')
  const parts = said.map((text) => text.replace(/[^\p{L}\p{N}]+/gu, '-'))
  return command.type === 'handOver' ? `handOver ${command.to.id}` : parts.join(' ')
}

/** Where a command is said: where the step asks for it, where the screen offers it at all, or wherever it is recorded. */
const NEARNESS = ['ofTheStep', 'offered', 'anywhere'] as const
type Nearness = (typeof NEARNESS)[number]

/** After so many seconds a clock has called whatever opens an exception. */
const LATE_s = 80

/**
 * Every command that the walk knows, each said at the step that offers it or, where none does, at the first that
 * records it: first along the straight way, then along the ways that were found so far. What the walk tries by a cue
 * comes of waiting.
 */
export function departures(
  straight: readonly (readonly Moment[])[],
  seen: Set<string>,
): readonly Departure[] {
  const found = new Map<string, Departure>()
  let ways = straight
  while (ways.length > 0) {
    const next: Departure[] = []
    for (const nearness of NEARNESS) {
      for (const way of ways) {
        for (const moment of way) next.push(...departuresFrom(moment, nearness, found, seen))
      }
    }
    ways = next.map(({ moments }) => moments)
  }
  return [...found.values()]
}

function departuresFrom(
  moment: Moment,
  nearness: Nearness,
  found: Map<string, Departure>,
  seen: Set<string>,
): readonly Departure[] {
  const open = isOffered(moment, nearness)
  const at = stepOf(moment.state).id
  const made: Departure[] = []
  for (const command of walkCommands(moment.state)) {
    const name = nameOf(command)
    if (found.has(name) || !open(command)) continue
    const after = done(moment, command)
    if (!after) continue
    const departure = { name, at, moments: followed(after, seen) }
    found.set(name, departure)
    made.push(departure)
  }
  return made
}

function done(moment: Moment, command: Command): Moment | undefined {
  if (command.type !== 'giveCue') {
    const { moment: after, decision } = tried(moment, command, { confirmed: true })
    return decision.kind === 'record' ? waited(after, 1000) : undefined
  }
  const late = waited(moment, LATE_s * 1000)
  const isGiven = dueCues(late.state, late.now).length === 0
  return isGiven && late.state.exceptions.length > moment.state.exceptions.length ? late : undefined
}

function isOffered(moment: Moment, nearness: Nearness): (command: Command) => boolean {
  if (nearness === 'anywhere') return () => true
  const { main, step, always, happened } = openAt(moment)
  const near = [main ?? '', ...step]
  const keys = new Set<string>(nearness === 'ofTheStep' ? near : [...near, ...always, ...happened])
  return (command) => command.type === 'giveCue' || keys.has(nameOf(command).replace(' ', ':'))
}

const known = new WeakMap<Moment, OpenCommands>()

function openAt(moment: Moment): OpenCommands {
  const { state, now } = moment
  const open = known.get(moment) ?? openCommands(state, stampAfter(state.last.at, now))
  known.set(moment, open)
  return open
}
