import { isCard } from '../plan/plan.ts'
import { ageAtCollection_h, circleCounts, hasCard } from './cardFacts.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'
import type { Fields, NoteWords } from './noteWords.ts'

/** What goes with a newborn card; each that nobody asked says so. */
export function newbornFields(facts: DrawFacts, { word, say, at }: NoteWords): Fields {
  if (!hasCard(facts)) return NO_CARD
  const { bornAt, ageTold, feeding, lastFeedAt, transfused } = facts.answers
  const hours = ageAtCollection_h(facts)
  const notAsked = word('yesNo', 'notAsked')
  const age =
    hours === undefined
      ? ageTold && word('newborn', ageTold)
      : say('newborn', 'hours', { hours: String(hours), born: shown(bornAt) })
  return {
    age: age ?? notAsked,
    feeding: feeding ? word('newborn', feeding) : notAsked,
    lastFeed: shown(lastFeedAt) ?? notAsked,
    transfused: transfused === undefined ? notAsked : word('yesNo', transfused ? 'yes' : 'no'),
    cardChecked: at(facts.cardChecked),
  }
}

const NO_CARD: Fields = {
  age: undefined,
  feeding: undefined,
  lastFeed: undefined,
  transfused: undefined,
  cardChecked: undefined,
}

/** `4 of 5 good; layered 1`. */
export function circlesText(
  facts: DrawFacts,
  fact: TubeFact,
  { word, say }: Pick<NoteWords, 'word' | 'say'>,
): string | undefined {
  if (!isCard(fact.tube)) return undefined
  const { good, of, bad } = circleCounts(facts, fact)
  const rest = bad.map(({ finding, n }) => `${word('circles', finding)} ${n}`)
  return [say('circles', 'count', { good: String(good), of: String(of) }), ...rest].join('; ')
}

const shown = (local: string | undefined): string | undefined => local?.replace('T', ' ')
