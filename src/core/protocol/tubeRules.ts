import { defined } from '../basics/defined.ts'
import { isMicro, type Fill } from '../plan/plan.ts'
import { overLimit } from './bloodTaken.ts'
import type { DrawEvent, SetAside } from './events.ts'
import type { ExceptionKind } from './exceptions.ts'
import * as draw from './facts.ts'
import type { Rule } from './rule.ts'
import { redrawnNumber } from './specimenNumber.ts'
import type { DrawState } from './state.ts'
import { hasSyringe, holdsBlood, isPulling, isTransferLate } from './syringe.ts'

/** Losing a tube that is a difficulty of its own; a card with a bad circle is told by its circles. */
export type LostBy = Exclude<SetAside, 'badCircles'>

/** A tube is set aside: the one on the holder, else the one that came off last. */
export const setAside =
  (why: LostBy) =>
  (s: DrawState): readonly DrawEvent[] => {
    const tubeId = s.tubeOn ?? draw.lastDrawn(s)?.id
    return tubeId === undefined ? [] : toldAndLost(s, why, tubeId)
  }

/**
 * A tube that should not have been taken: the one on the holder; the one just off it, as long as it waits to be mixed;
 * the next, where none was drawn. Else it may be either, and a person says which.
 */
export const tubeOfHand = (why: 'wrongTube' | 'expiredTube'): Rule => {
  const isJustOff = (s: DrawState): boolean =>
    draw.unmixed(s).some(({ id }) => id === draw.lastDrawn(s)?.id)
  return {
    impossible: [
      [(s) => !draw.tubeIsOn(s) && !draw.nextTube(s) && !draw.lastDrawn(s), 'noTubeLeft'],
    ],
    ask: [[(s) => !draw.tubeIsOn(s) && draw.lastDrawn(s) !== undefined && !isJustOff(s), 'drawnTube']],
    otherwise: (s) => {
      const tubeId = draw.nextTube(s)?.id
      return tubeId === undefined ? undefined : { type: 'raise', kind: why, tubeId }
    },
    records: (s) => {
      const tubeId = s.tubeOn ?? draw.lastDrawn(s)?.id ?? draw.nextTube(s)?.id
      return tubeId === undefined ? [] : toldAndLost(s, why, tubeId)
    },
  }
} // prettier-ignore

/**
 * The named tube goes back to waiting, and another of its kind is needed. Once a tube was on, its number may stand on a
 * label: the one drawn in its place gets another.
 */
export const tubeLost = (s: DrawState, why: SetAside, tubeId: string): DrawEvent => {
  const wasOn = s.tubes.some(({ id, on }) => id === tubeId && on !== undefined)
  const redrawnAs = wasOn ? redrawnNumber(s.redrawnGiven) : undefined
  return defined({ type: 'tubeSwapped' as const, tubeId, why, redrawnAs })
}

const toldAndLost = (s: DrawState, why: LostBy, tubeId: string): readonly DrawEvent[] => [
  { type: 'exceptionRaised', kind: why, tubeId },
  tubeLost(s, why, tubeId),
]

/** A closed tube that fell and is whole is mixed and noted; only a broken or leaking one is drawn again. */
export const fellIntact: Rule = {
  impossible: [[(s) => !draw.tubeIsOn(s) && !draw.lastDrawn(s), 'noSpecimens']],
  records: (s) => {
    const tubeId = s.tubeOn ?? draw.lastDrawn(s)?.id
    return tubeId === undefined ? [] : [{ type: 'tubeFell', tubeId }]
  },
}

export const tubeOff = (fill: Fill, estimate_mL?: number) => (s: DrawState): readonly DrawEvent[] =>
  s.tubeOn === undefined
    ? []
    : [
        { type: 'tubeOff', tubeId: s.tubeOn, fill, ...(estimate_mL === undefined ? {} : { estimate_mL }) },
        ...(fill === 'short'
          ? [{ type: 'exceptionRaised' as const, kind: 'shortFill' as const, tubeId: s.tubeOn }]
          : []),
      ] // prettier-ignore

export const shortBy = (estimate_mL: number | undefined): Rule => ({
  impossible: [[(s) => !draw.tubeIsOn(s), 'noTubeOn']],
  // No blood at all: nothing to label, and the tube is still wanted.
  records: estimate_mL === 0 ? tubeOff('empty', 0) : tubeOff('short', estimate_mL),
})

/** No transfer device fits a tube without a vacuum: it is filled with its cap off. */
const takesDrops = (s: DrawState, tubeId: string | undefined): boolean =>
  isMicro(draw.planned(s, tubeId ?? draw.nextTube(s)?.id ?? ''))

/** Puts a tube on. Taking another than the next is recorded and flagged. */
export const putOn = (tubeId: string | undefined): Rule => ({
  impossible: [
    [(s) => !draw.needleIsIn(s) && !hasSyringe(s), 'needleNotIn'],
    [(s) => hasSyringe(s) && !holdsBlood(s), 'syringeOpen'],
    [(s) => draw.tubeIsOn(s), 'tubeIsOn'],
    [(s) => !draw.waitingTubes(s).some((tube) => tubeId === undefined || tube.id === tubeId), 'noTubeLeft'],
  ],
  ask: [[(s) => overLimit(s, tubeId ?? draw.nextTube(s)?.id), 'overLimit']],
  flags: [
    [(s) => tubeId !== undefined && draw.nextTube(s)?.id !== tubeId, 'wrongOrder'],
    [(s) => overLimit(s, tubeId ?? draw.nextTube(s)?.id), 'overBloodLimit'],
    [(s) => holdsBlood(s) && !s.puncture.transfer && !takesDrops(s, tubeId), 'noTransferDevice'],
    [(s, now) => holdsBlood(s) && isTransferLate(s, now), 'transferLate'],
  ],
  records: (s) => {
    const id = tubeId ?? draw.nextTube(s)?.id
    return id === undefined ? [] : [{ type: 'tubeOn', tubeId: id }]
  },
}) // prettier-ignore

/** Blood comes slowly: into the tube that is on, or into the syringe that is pulled. */
export const slowFlow: Rule = {
  impossible: [
    [(s) => hasSyringe(s) && !draw.needleIsIn(s), 'needleNotIn'],
    [(s) => !draw.tubeIsOn(s) && !isPulling(s), 'noTubeOn'],
    [(s) => s.exceptions.some(({ kind, noticed }) => SLOW.has(kind) && !noticed), 'alreadyDone'],
  ],
  records: (s) => [
    defined({
      type: 'exceptionRaised' as const,
      kind: isPulling(s) ? ('slowPull' as const) : ('slowFlow' as const),
      tubeId: s.tubeOn,
    }),
  ],
}

const SLOW: ReadonlySet<ExceptionKind> = new Set(['slowFlow', 'slowPull'])
