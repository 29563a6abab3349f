import type { Collector } from '../order/order.ts'
import type { Stamp } from '../time/stamp.ts'
import type { DrawEvent } from './events.ts'
import type { DrawState } from './state.ts'

/** Who took over is written: whoever was stuck has left the draw, and the screen, to them. */
export function named(state: DrawState): DrawState {
  const { colleagueTook: _colleagueTook, ...rest } = prickSettled(state)
  return rest
}

/** Whoever is at the arm was stuck; at the second time the clock starts anew. */
export const prickedNow = (
  { collector }: DrawState,
  at: Stamp,
): NonNullable<DrawState['pricked']> => ({
  by: collector.id,
  at,
  isSettled: false,
})

/** A colleague at the arm settles no needlestick; the word that it is settled does. */
export function exceptionEnded(
  state: DrawState,
  { kind, how }: Extract<DrawEvent, { type: 'exceptionEnded' }>,
): DrawState {
  const exceptions = state.exceptions.filter((open) => open.kind !== kind)
  const isSettled = kind === 'needlestick' && how === 'exceptionHandled'
  return { ...(isSettled ? prickSettled(state) : state), exceptions }
}

/** First aid is done, or is with somebody else than the screen. */
const prickSettled = (state: DrawState): DrawState =>
  state.pricked ? { ...state, pricked: { ...state.pricked, isSettled: true } } : state

/** Whoever takes over before a needle cleans their own hands and identifies the patient themselves. */
export function handedOver(state: DrawState, to: Collector): DrawState {
  const { needleIn, needleOut } = state.puncture
  const inArm = needleIn !== undefined && needleOut === undefined
  const moreToDraw = state.tubes.some((tube) => !tube.on) && !state.noMore
  if (inArm || !moreToDraw || state.closed) return { ...state, collector: to }
  // A wristband that differed still does.
  const differs = state.identifiers.recordNumber === false
  const identifiers = differs ? { recordNumber: false } : {}
  return { ...state, collector: to, hands: false, identifiers }
}
