import { SYRINGES_mL, type NeedleSet } from '../order/order.ts'
import { limit_ms } from '../policy/policy.ts'
import { syringeFor, syringeNeed_mL } from '../plan/syringeNeed.ts'
import { isMicro, type Fill } from '../plan/plan.ts'
import { defined } from '../basics/defined.ts'
import { pullsOverLimit } from './bloodTaken.ts'
import type { CommandKey } from './commands.ts'
import * as draw from './facts.ts'
import { not, type Rule, type Test } from './rule.ts'
import type { DrawState } from './state.ts'

/**
 * A syringe and a transfer device in the place of a holder, for a vein that a tube's vacuum would pull shut.
 * The plunger is pulled slowly and never pushed: the tubes draw themselves full. The needle is off, its safety closed,
 * before the transfer device is on (continuing education pages, labce.com blood transfer devices, and a training card
 * on syringe transfer, excerpts; WHO guidelines on drawing blood 2010 forbid pressing the plunger, from memory).
 */
export const hasSyringe = (s: DrawState): boolean =>
  !draw.isCapillary(s) && draw.needleSetOf(s).syringe_mL !== undefined

/** Tubes without a vacuum wait, and no syringe is at hand that their drops could come from; no holder fits them. */
export const wantsSyringe = (s: DrawState): boolean =>
  !draw.isCapillary(s) &&
  !hasSyringe(s) &&
  draw.waitingTubes(s).some(({ id }) => isMicro(draw.planned(s, id)))

/** No tube that waits draws itself full: their caps are off, and no transfer device fits them. */
export const onlyDrops = (s: DrawState): boolean =>
  draw.waitingTubes(s).every(({ id }) => isMicro(draw.planned(s, id)))

/** The tube at the syringe fills drop by drop. */
export const isDripping = (s: DrawState): boolean =>
  draw.tubeIsOn(s) && isMicro(draw.planned(s, draw.tubeInHolder(s)?.id ?? ''))

/** Blood is seen before the first tube: in the tubing of a winged set, or in the tip of a syringe. */
export const showsFlash = (s: DrawState): boolean =>
  hasSyringe(s) || draw.needleSetOf(s).kind === 'winged'

/** What the tubes that wait want with what stays behind, mL, whatever syringe is in hand. */
export function syringeWants_mL(s: DrawState, set: NeedleSet = draw.needleSetOf(s)): number {
  const tubes = draw.waitingTubes(s).flatMap(({ id }) => draw.planned(s, id) ?? [])
  return syringeNeed_mL(tubes, set, s.opened.policy)
}

/** What is to be pulled, mL: what the tubes want, and no more than the syringe holds. */
export const toPull_mL = (s: DrawState): number =>
  Math.min(syringeWants_mL(s), draw.needleSetOf(s).syringe_mL ?? Infinity)

/** The syringe in hand does not hold what the tubes want. */
export const wantsLargerSyringe = (s: DrawState): boolean =>
  hasSyringe(s) && toPull_mL(s) < syringeWants_mL(s)

export const isPulling = (s: DrawState): boolean =>
  hasSyringe(s) && draw.needleIsIn(s) && !s.puncture.pulled

/** The syringe is pulled and not yet in the sharps box. */
export const holdsBlood = (s: DrawState): boolean => {
  const { pulled, sharps } = s.puncture
  return pulled !== undefined && pulled.most_mL > 0 && !sharps
}

/** Blood in the syringe is still to go into tubes. */
export const waitsInSyringe = (s: DrawState): boolean =>
  holdsBlood(s) &&
  !draw.drawIsEnding(s) &&
  (draw.tubeIsOn(s) || (draw.nextTube(s) !== undefined && !s.puncture.lastTubeOff))

/** The needle is out, and nothing graver is to be done first. */
export const mayTransfer = (s: DrawState): boolean =>
  holdsBlood(s) && s.puncture.needleOut !== undefined && !draw.severeIsOpen(s)

export const isTransferring = (s: DrawState): boolean => mayTransfer(s) && waitsInSyringe(s)

/** Blood was seen, the needle is out, and nobody said how much came into the syringe. */
export const pullIsOpen = (s: DrawState): boolean => {
  const { flash, pulled, needleOut, sharps } = s.puncture
  return hasSyringe(s) && !!flash && !pulled && !!needleOut && !sharps && !draw.severeIsOpen(s)
}

/**
 * Sizes that would not hold it are not offered, and with the supplies only the one that should be taken in the place of
 * one too small; that another was taken can be recorded.
 */
export function isSyringeUnfit(s: DrawState, key: CommandKey): boolean {
  const size = SYRINGES_mL.find((mL) => key === `chooseSyringe:${mL}`)
  if (size === undefined) return false
  // The needle is named before the syringe it goes on: nobody has chosen one yet.
  if (draw.isFirstNeedle(s) && !s.puncture.needleSet && wantsSyringe(s)) return true
  const wants_mL = syringeWants_mL(s, { ...draw.needleSetOf(s), syringe_mL: size })
  if (size < wants_mL) return true
  return !s.supplies && (!wantsLargerSyringe(s) || size !== syringeFor(wants_mL))
}

/** The syringe was pulled: to what was asked for, or short of it. */
export const pulled = (fill: Exclude<Fill, 'empty'>, estimate_mL?: number): Rule => ({
  impossible: [
    [not(hasSyringe), 'noSyringe'],
    [(s) => !s.puncture.needleIn, 'needleNotIn'],
    [(s) => !!s.puncture.pulled || !!s.puncture.sharps, 'alreadyDone'],
  ],
  flags: [[(s) => pullsOverLimit(s, estimate_mL ?? toPull_mL(s)), 'overBloodLimit']],
  records: (s) => [
    defined({ type: 'syringeFilled' as const, fill, planned_mL: toPull_mL(s), estimate_mL }),
  ],
})

/** So long after the pull that blood may have clotted in the syringe. */
export const isTransferLate: Test = (s, now) =>
  draw.waited_ms(s.puncture.pulled?.at, now) > limit_ms(s.opened.policy, 'transferMost_s')

export const SYRINGE_RULES = {
  syringeFull: pulled('full'),
  syringeShort: pulled('short'),
  transferOn: {
    impossible: [
      [not(hasSyringe), 'noSyringe'],
      [(s) => !s.puncture.pulled, 'syringeOpen'],
      [(s) => !!s.puncture.transfer || !!s.puncture.sharps, 'alreadyDone'],
    ],
    flags: [[(s) => draw.needleIsIn(s) || !s.puncture.shield, 'transferUnsafe']],
    records: () => [{ type: 'transferOn' }],
  },
} as const satisfies Readonly<Record<string, Rule>>
