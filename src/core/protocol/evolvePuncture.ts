import { defined } from '../basics/defined.ts'
import type { Arm } from '../order/order.ts'
import { decisionsAfter } from './armDecisions.ts'
import type { ArmFinding, DrawEvent } from './events.ts'
import { isArmCloser } from './exceptionTable.ts'
import type { ExceptionKind } from './exceptions.ts'
import type { Stamp } from '../time/stamp.ts'
import type { BandPeriod, DrawState, Puncture } from './state.ts'

/** The state with something changed of the puncture that is in hand. */
export function inPuncture(state: DrawState, change: Partial<Puncture>): DrawState {
  return { ...state, puncture: { ...state.puncture, ...change } }
}

/** An arm with an infusion is not the one to use: which, is chosen anew. */
export function armSeen(state: DrawState, arm: Arm, finding: ArmFinding): DrawState {
  const seen = { ...state, armsSeen: [...state.armsSeen, { arm, finding }] }
  const { arm: chosen, vein: _vein, ...puncture } = state.puncture
  return finding === 'infusion' && chosen === arm && !puncture.needleIn
    ? { ...seen, puncture }
    : seen
}

/** The first thing that closes the arm stands. */
export function armClosing(
  { puncture }: DrawState,
  kind: ExceptionKind,
): Pick<Puncture, 'closedBy'> {
  return puncture.needleIn && !puncture.closedBy && isArmCloser(kind) ? { closedBy: kind } : {}
}

/** Another site is neither clean nor dry, and another arm has its own veins. */
export function siteChosen(
  state: DrawState,
  { arm, vein, elsewhere }: Extract<DrawEvent, { type: 'siteChosen' }>,
): DrawState {
  const {
    arm: oldArm,
    vein: oldVein,
    elsewhere: _elsewhere,
    cleaned,
    cleanedWith,
    dry,
    ...rest
  } = state.puncture
  const sameArm = oldArm === undefined || oldArm === arm
  const keptVein = vein ?? (sameArm ? oldVein : undefined)
  const sameSite = sameArm && (oldVein === undefined || oldVein === keptVein)
  const puncture: Puncture = {
    ...rest,
    arm,
    ...(keptVein ? { vein: keptVein } : {}),
    ...defined({ elsewhere }),
    ...(sameSite && cleaned ? { cleaned, ...defined({ cleanedWith }) } : {}),
    ...(sameSite && dry ? { dry } : {}),
  }
  return { ...state, puncture, decisions: decisionsAfter(state, arm) }
}

/** Cleaning again makes the skin wet again. */
export function withoutDry(state: DrawState): DrawState {
  const { dry: _dry, cleanedWith: _with, ...puncture } = state.puncture
  return { ...state, puncture }
}

/** A band that goes on now, on the arm that was chosen if one was. */
export function bandNow(state: DrawState, on: Stamp): BandPeriod {
  const { arm } = state.puncture
  return arm ? { on, arm } : { on }
}

/** The blood that came into a syringe: what was asked for, or what somebody read off it. */
export function pulledAt(
  { fill, planned_mL, estimate_mL }: Extract<DrawEvent, { type: 'syringeFilled' }>,
  at: Stamp,
): NonNullable<Puncture['pulled']> {
  const known = estimate_mL ?? (fill === 'full' ? planned_mL : undefined)
  return { at, least_mL: known ?? 0, most_mL: known ?? planned_mL }
}
