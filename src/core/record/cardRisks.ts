import { isCard } from '../plan/plan.ts'
import { limit } from '../policy/policy.ts'
import { leftAt, NOT_GONE_FAR, wayElapsed } from '../protocol/specimenWay.ts'
import { ageAtCollection_h, circleCounts } from './cardFacts.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'
import type { FoundRisk } from './foundRisk.ts'

/** What a screening laboratory must know of a newborn card. */
export function cardRisks(facts: DrawFacts, tubes: readonly TubeFact[]): readonly FoundRisk[] {
  const cards = tubes.filter(({ tube }) => isCard(tube))
  if (cards.length === 0) return []
  const transfused: FoundRisk[] =
    facts.answers.transfused === true
      ? [{ code: 'cardTransfused', tubes: cards, found: 'cardTransfused' }]
      : []
  return [
    ...cards.flatMap((card) => [...circleRisks(facts, card), ...dryingRisks(facts, card)]),
    ...ageRisks(facts, cards),
    ...transfused,
  ]
}

function circleRisks(facts: DrawFacts, card: TubeFact): FoundRisk[] {
  const { good, of } = circleCounts(facts, card)
  if (good >= of || !card.off) return []
  return [{ code: 'cardCircles', tubes: [card], found: 'cardCircles', values: { good, of } }]
}

function ageRisks(facts: DrawFacts, cards: readonly TubeFact[]): FoundRisk[] {
  const least_h = limit(facts.opened.policy, 'cardAge_h')
  const age_h = ageAtCollection_h(facts)
  if (age_h !== undefined) {
    if (age_h >= least_h) return []
    return [{ code: 'cardEarly', tubes: cards, found: 'cardEarly', values: { age_h, least_h } }]
  }
  const told = facts.answers.ageTold
  if (told === 'underDay') return [{ code: 'cardEarly', tubes: cards, found: 'cardFirstDay' }]
  return told ? [] : [{ code: 'cardEarly', tubes: cards, found: 'cardAgeUnknown' }]
}

/** Held against the moment it was called dry, and against the hand-over. */
function dryingRisks({ opened, ways }: DrawFacts, card: TubeFact): FoundRisk[] {
  const until = card.dried ?? leftAt(ways.get(card.tube.id) ?? NOT_GONE_FAR)
  if (!until) return []
  const least_h = limit(opened.policy, 'cardDry_h')
  const flat = card.handled?.dryFlat
  if (!flat) return [{ code: 'cardWet', tubes: [card], found: 'cardNotFlat', values: { least_h } }]
  const dried_min = Math.floor(wayElapsed(flat, until).least_ms / 60_000)
  if (dried_min >= 60 * least_h) return []
  return [{ code: 'cardWet', tubes: [card], found: 'cardWet', values: { dried_min, least_h } }]
}
