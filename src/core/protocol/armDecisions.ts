import type { Arm, DecisionSubject } from '../order/order.ts'
import type { DrawState } from './state.ts'

/** Which closed arm a named provider said may be used all the same. */

type ArmDecision = DrawState['decisions'][number]

const ABOUT_ARMS: readonly DecisionSubject[] = ['restrictedArm', 'bothArms']

/** Punctures of this draw in which something closed the arm. */
export const injuriesOf = (s: Pick<DrawState, 'past' | 'puncture'>, arm: Arm): number =>
  [...s.past, s.puncture].filter((p) => p.arm === arm && p.closedBy).length

const goesOn = ({ about, decision }: ArmDecision): boolean =>
  decision === 'proceed' && ABOUT_ARMS.includes(about)

/** A decision that names the arm, of after the last that happened to it. */
const isFor = (s: DrawState, d: ArmDecision, arm: Arm): boolean =>
  goesOn(d) && d.arm === arm && d.injuries === injuriesOf(s, arm)

/** It names no arm, and none was chosen after it: good for one arm to which nothing happened in this draw. */
const isForAny = (s: DrawState, d: ArmDecision, arm: Arm): boolean =>
  goesOn(d) && d.arm === undefined && injuriesOf(s, arm) === 0

export const armIsAllowed = (s: DrawState, arm: Arm): boolean =>
  s.decisions.some((d) => isFor(s, d, arm) || isForAny(s, d, arm))

/** The decisions once an arm is chosen: one that named none was about this arm, where this arm needed it. */
export function decisionsAfter(s: DrawState, arm: Arm): DrawState['decisions'] {
  const needsIt =
    s.opened.preparation.restrictions[arm] !== undefined ||
    s.armsSeen.some((seen) => seen.arm === arm && seen.finding === 'infusion')
  if (!needsIt || s.decisions.some((d) => isFor(s, d, arm))) return s.decisions
  return s.decisions.map((d) => (isForAny(s, d, arm) ? { ...d, arm, injuries: 0 } : d))
}
