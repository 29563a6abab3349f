import {
  cardIsOn,
  cardIsWanted,
  cardOff,
  circlesLeft,
  isWet,
  spoiltCard,
  wetCards,
} from './card.ts'
import * as draw from './facts.ts'
import { not, type Rule } from './rule.ts'
import { tubeLost } from './tubeRules.ts'

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
  // Not filled again, layered or patched: another card from the beginning (state newborn screening pages, excerpts).
  anotherCard: {
    impossible: [
      [(s) => spoiltCard(s) === undefined, 'noCard'],
      [(s) => s.racked !== undefined, 'alreadyDone'],
    ],
    records: (s) => {
      const id = spoiltCard(s)?.id
      return id === undefined ? [] : [tubeLost(s, 'badCircles', id)]
    },
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
