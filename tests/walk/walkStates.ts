import type { Command, PlainCommand } from '../../src/core/protocol/commands.ts'
import type { DrawState } from '../../src/core/protocol/state.ts'
import { stepOf } from '../../src/core/protocol/steps.ts'
import { openDraw, transition, type Seal } from '../../src/core/protocol/transition.ts'
import type { DrawOpened } from '../../src/core/protocol/events.ts'
import { nextByTheScreen } from '../support/drawDriver.ts'
import { stampAt } from '../support/sampleLog.ts'
import { abstractState } from './abstractState.ts'
import { walkCommands } from './walkCommands.ts'

export interface WalkedState {
  readonly state: DrawState
  /** How many commands other than the one on the screen lead here at least. */
  readonly departures: number
  readonly step: string
  /** Keys of the states it leads to, and whether the screen asked for that. */
  readonly next: readonly { readonly key: string; readonly asked: boolean }[]
  /** For telling how one gets here. */
  readonly from?: { readonly key: string; readonly command: Command }
}

type Growing = Omit<WalkedState, 'next'> & { next: { key: string; asked: boolean }[] }

export interface Walk {
  readonly states: ReadonlyMap<string, WalkedState>
  readonly moves: number
  /** Main commands of the screen that were turned down: the screen asks for something that cannot be. */
  readonly refusedMains: readonly string[]
}

/**
 * Visits every state that is reached with at most so many departures from what the screen asks for, each abstract
 * state once. Questions are answered with yes.
 */
export function walkStates(
  opening: DrawOpened,
  mostDepartures: number,
  more: readonly Command[] = [],
): Walk {
  const states = new Map<string, Growing>()
  const refusedMains: string[] = []
  let moves = 0
  let layer: string[] = []
  const first = slim(openDraw(opening, stampAt(0), unsealed).state)
  states.set(abstractState(first), {
    state: first,
    departures: 0,
    step: stepOf(first).id,
    next: [],
  })
  layer.push(abstractState(first))
  for (let departures = 0; departures <= mostDepartures; departures++) {
    const later: string[] = []
    // Within a layer what the screen asks for costs nothing, so the queue grows as it is read.
    for (let i = 0; i < layer.length; i++) {
      const key = layer[i] ?? ''
      const from = states.get(key)
      if (!from) continue
      const asked = nextByTheScreen(from.state)
      for (const command of walkCommands(from.state, more)) {
        const main = asked.some((other) => sameCommand(other, command))
        const cost = departures + (main ? 0 : 1)
        if (cost > mostDepartures) continue
        const now = stampAt(200 * from.state.last.seq)
        const incoming = { now, source: 'touch', confirmed: true } as const
        const step = transition(from.state, command, incoming, unsealed)
        const { decision } = step
        if (step.entries.length === 0) {
          if (main) refusedMains.push(`${from.step}: ${command.type} (${JSON.stringify(decision)})`)
          continue
        }
        const state = slim(step.state)
        const next = abstractState(state)
        moves += 1
        from.next.push({ key: next, asked: main })
        if (states.has(next)) {
          // Reached more cheaply than it was found: it has to be looked at in this layer.
          const known = states.get(next)
          if (known && known.departures > cost) {
            states.set(next, { ...known, departures: cost })
            layer.push(next)
          }
          continue
        }
        states.set(next, {
          state,
          departures: cost,
          step: stepOf(state).id,
          next: [],
          from: { key, command },
        })
        if (cost === departures) layer.push(next)
        else later.push(next)
      }
    }
    layer = later.filter((key) => states.get(key)?.departures === departures + 1)
  }
  return { states, moves, refusedMains }
}

const sameCommand = (a: Command | PlainCommand, b: Command): boolean =>
  JSON.stringify(typeof a === 'string' ? { type: a } : a) === JSON.stringify(b)

/** Hashes are not walked. */
const unsealed: Seal = (entry) => ({ ...entry, previous: '', hash: '' })

/** Taking back is not walked, so what is needed only for it, or to say a cue once, need not be carried along. */
const slim = (s: DrawState): DrawState => ({ ...s, kept: [], flags: [], cues: [] })

/** Keys of states from which no recorded end can be reached by any of the moves walked. */
export function deadEnds({ states }: Walk): readonly string[] {
  const before = new Map<string, string[]>()
  for (const [key, { next }] of states) {
    for (const to of next) {
      const known = before.get(to.key)
      if (known) known.push(key)
      else before.set(to.key, [key])
    }
  }
  const ends = [...states].filter(([, { state }]) => state.closed).map(([key]) => key)
  const safe = new Set(ends)
  for (const key of safe) for (const from of before.get(key) ?? []) safe.add(from)
  return [...states.keys()].filter((key) => !safe.has(key))
}

/** The commands that lead from the opening to a state. */
export function wayTo({ states }: Walk, key: string): readonly string[] {
  const from = states.get(key)?.from
  if (!from) return []
  const { command } = from
  return [
    ...wayTo({ states, moves: 0, refusedMains: [] }, from.key),
    'cue' in command ? `${command.type} ${command.cue.cue}` : command.type,
  ]
}
