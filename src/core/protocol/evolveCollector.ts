import type { Collector } from '../order/order.ts'
import type { DrawState } from './state.ts'

/** Who took over is written. */
export function named(state: DrawState): DrawState {
  const { colleagueTook: _colleagueTook, ...rest } = state
  return rest
}

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
