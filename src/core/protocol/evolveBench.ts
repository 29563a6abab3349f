import type { Stamp } from '../time/stamp.ts'
import { LEAVES, type BenchEvent } from './benchEvents.ts'
import type { DrawEvent } from './events.ts'
import { specimens } from './facts.ts'
import type { DrawState } from './state.ts'

/** What was done with specimens after the draw. Its times stand in the entries, see `specimenWays`. */
export function benchActed(state: DrawState, event: BenchEvent, at: Stamp): DrawState {
  const { act, type } = event
  const tubeIds = event.tubeIds ?? specimens(state).map(({ id }) => id)
  const acts = act === undefined || state.acts.includes(act) ? state.acts : [...state.acts, act]
  const acted = { ...state, acts }
  if (type === 'spinStarted') return { ...acted, spun: joined(state.spun, tubeIds) }
  if (!LEAVES.includes(type)) return acted
  const sent = joined(state.sent, tubeIds)
  const isAll = event.tubeIds === undefined || specimens(state).every(({ id }) => sent.includes(id))
  return isAll ? { ...acted, sent, courier: state.courier ?? at } : { ...acted, sent }
}

/** Nothing was done yet to the tube that takes the place of a lost one. */
export function offBench(
  state: DrawState,
  { tubeId }: Extract<DrawEvent, { type: 'tubeSwapped' }>,
): DrawState {
  const others = (ids: readonly string[]): readonly string[] => ids.filter((id) => id !== tubeId)
  return { ...state, spun: others(state.spun), sent: others(state.sent) }
}

const joined = (ids: readonly string[], more: readonly string[]): readonly string[] => [
  ...new Set([...ids, ...more]),
]
