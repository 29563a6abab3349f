import { isCard, plannedFill_mL } from '../plan/plan.ts'
import { limit, limit_ms } from '../policy/policy.ts'
import { overLimit } from './bloodTaken.ts'
import type { CircleFinding, DrawEvent } from './events.ts'
import * as draw from './facts.ts'
import type { Rule, Test } from './rule.ts'
import type { DrawState, TubeProgress } from './state.ts'
import { tubeOff } from './tubeRules.ts'

/** A newborn card is wanted and not yet filled. */
export const cardIsWanted = (s: DrawState): boolean =>
  draw.isCapillary(s) && draw.waitingTubes(s).some(({ id }) => isCard(draw.planned(s, id)))

/** The card that is being filled, or that is next. */
const cardInHand = (s: DrawState): TubeProgress | undefined => {
  const tube = draw.tubeIsOn(s) ? draw.tubeInHolder(s) : draw.nextTube(s)
  return draw.isCapillary(s) && tube && isCard(draw.planned(s, tube.id)) ? tube : undefined
}

/** It takes the place of one that was set aside. */
export const isFurtherCard = (s: DrawState): boolean => (cardInHand(s)?.swaps ?? 0) > 0

export const cardIsOn = (s: DrawState): boolean => draw.tubeIsOn(s) && cardInHand(s) !== undefined

/** Circles of that card without a drop. */
export const circlesLeft = (s: DrawState): number => {
  const card = cardInHand(s)
  return card ? Math.max(0, circlesOf(s) - (card.circles?.length ?? 0)) : 0
}

const circlesOf = (s: DrawState): number => limit(s.opened.policy, 'cardCircles_n')

/** The card that was put down last, where a circle of it is not good: a screening program may refuse it. */
export const spoiltCard = (s: DrawState): TubeProgress | undefined =>
  draw
    .specimens(s)
    .findLast(
      ({ id, circles = [] }) =>
        isCard(draw.planned(s, id)) &&
        circles.filter((finding) => finding === 'good').length < circlesOf(s),
    )

/** Filled cards that nobody said are dry. */
export const wetCards = (s: DrawState): readonly TubeProgress[] =>
  draw.specimens(s).filter(({ id, dried }) => !dried && isCard(draw.planned(s, id)))

/** A card does not yet lie flat for as long as it is to dry. */
export const isWet =
  ({ handled }: TubeProgress): Test =>
  (s, now) =>
    handled?.dryFlat === undefined ||
    draw.waited_ms(handled.dryFlat, now) < limit_ms(s.opened.policy, 'cardDry_h')

export const someIsWet: Test = (s, now) => wetCards(s).some((card) => isWet(card)(s, now))

/** One drop into the next circle; the first takes the card in hand. */
export const circle = (finding: CircleFinding): Rule => ({
  impossible: [
    [(s) => !draw.needleIsIn(s), 'needleNotIn'],
    [(s) => cardInHand(s) === undefined, 'noCard'],
    [(s) => circlesLeft(s) === 0, 'circlesDone'],
  ],
  ask: [[(s) => !cardIsOn(s) && overLimit(s, cardInHand(s)?.id), 'overLimit']],
  flags: [
    [(s) => s.cardChecked === undefined, 'cardNotChecked'],
    [(s) => !cardIsOn(s) && overLimit(s, cardInHand(s)?.id), 'overBloodLimit'],
  ],
  records: (s) => {
    const tubeId = cardInHand(s)?.id
    if (tubeId === undefined) return []
    const taken = cardIsOn(s) ? [] : [{ type: 'tubeOn' as const, tubeId }]
    return [...taken, { type: 'circleFilled', tubeId, finding }]
  },
})

/**
 * The card is put down: full where each circle is good. Blood in it is what its circles hold, each an equal part of
 * the card's volume.
 */
export function cardOff(s: DrawState): readonly DrawEvent[] {
  const card = cardInHand(s)
  const tube = card && draw.planned(s, card.id)
  if (!card || !tube) return []
  const circles = card.circles ?? []
  if (circles.length === 0) return tubeOff('empty', 0)(s)
  const good = circles.filter((finding) => finding === 'good').length
  const each_mL = plannedFill_mL(tube) / circlesOf(s)
  return good >= circlesOf(s)
    ? [{ type: 'tubeOff', tubeId: card.id, fill: 'full' }]
    : [{ type: 'tubeOff', tubeId: card.id, fill: 'short', estimate_mL: circles.length * each_mL }]
}
