import type { ClockKind } from '../../core/protocol/clockTable.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { stepOf, type StepId } from '../../core/protocol/steps.ts'
import type { ClockView } from './drawViewTypes.ts'

/** The clock that is shown big: the band before everything, then what the step is waiting for. */
export function mainClock(s: DrawState, clocks: readonly ClockView[]): ClockView | undefined {
  const awaited = CLOCK_OF_STEP[stepOf(s).id]
  const rank = ({ kind }: ClockView): number => {
    if (kind === awaited) return Math.min(AWAITED, MAIN_RANK[kind])
    if ((kind === 'clot' || kind === 'cardDry') && !s.closed) return NEVER
    // The label that is read needs the place; the limit of a tube stands beside it, small.
    if (kind === 'timeLimit' && stepOf(s).id === 'labels') return NEVER
    return MAIN_RANK[kind]
  }
  const first = clocks.reduce((best, clock) => Math.min(best, rank(clock)), NEVER)
  return first === NEVER ? undefined : clocks.find((clock) => rank(clock) === first)
}

const AWAITED = 1
const NEVER = Infinity

/**
 * The lower the number the sooner a clock is the big one. Clotting and drying of a card only once the draw is closed.
 */
const MAIN_RANK: Readonly<Record<ClockKind, number>> = {
  band: 0,
  fill: 2,
  transfer: 2.5,
  mix: 3,
  pressure: 4,
  watch: 5,
  faint: 6,
  drying: 7,
  rest: 8,
  warming: 8.5,
  flash: 9,
  clot: 10,
  exposure: NEVER,
  timeLimit: 9.5,
  spinBy: NEVER,
  cardDry: 10.5,
}

const CLOCK_OF_STEP: Readonly<Partial<Record<StepId, ClockKind>>> = {
  band: 'rest',
  dry: 'drying',
  warm: 'warming',
  mix: 'mix',
  handling: 'timeLimit',
  courier: 'timeLimit',
  spin: 'clot',
  cardDry: 'cardDry',
}
