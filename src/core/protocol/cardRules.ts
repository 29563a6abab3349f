import { cardIsOn, cardIsWanted, cardOff, circlesLeft, isWet, wetCards } from './card.ts'
import * as draw from './facts.ts'
import { not, type Rule } from './rule.ts'

function answerTransfused(transfused: boolean): Rule {
  return {
    impossible: [
      [not(cardIsWanted), 'noCard'],
      [(s) => draw.answersOf(s).transfused === transfused, 'alreadyDone'],
    ],
    records: () => [{ type: 'answerTaken', answer: { transfused } }],
  }
}

/** What is said of a newborn card and of whom it is for. */
export const CARD_RULES = {
  transfusedNo: answerTransfused(false),
  transfusedYes: answerTransfused(true),
  cardChecked: {
    impossible: [
      [(s) => !cardIsWanted(s) && !cardIsOn(s), 'noCard'],
      [(s) => !!s.cardChecked, 'alreadyDone'],
    ],
    records: () => [{ type: 'cardChecked' }],
  },
  cardDone: {
    impossible: [[not(cardIsOn), 'noCard']],
    ask: [[(s) => circlesLeft(s) > 0, 'circlesLeft']],
    records: cardOff,
  },
  cardDried: {
    impossible: [[(s) => wetCards(s).length === 0, 'noCard']],
    flags: [
      [
        (s, now) =>
          wetCards(s)
            .slice(0, 1)
            .some((card) => isWet(card)(s, now)),
        'cardWet',
      ],
    ],
    records: (s) =>
      wetCards(s)
        .slice(0, 1)
        .map(({ id }) => ({ type: 'cardDried', tubeId: id })),
  },
} as const satisfies Readonly<Record<string, Rule>>
