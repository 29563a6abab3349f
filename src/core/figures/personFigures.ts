import type { Collector } from '../order/order.ts'
import type { DrawMeasures } from './drawMeasures.ts'
import type { Proportion } from './pChart.ts'

/** What one person's needles and bands came to. A share of few cases is told of nobody. */
export interface PersonFigures {
  readonly person: Collector
  readonly draws: number
  /** Needles and lancets that gave blood, of all that they put in. */
  readonly gaveBlood: Proportion
  readonly bandOver: Proportion
}

/**
 * Figures by who did it, by name and never by what came out: it is no ranking. A person is known by the id in the
 * records; of several names the last one counts.
 */
export function personFigures(draws: readonly DrawMeasures[]): readonly PersonFigures[] {
  const people = new Map(draws.flatMap((draw) => draw.people).map((person) => [person.id, person]))
  return [...people.values()]
    .map((person) => figuresOfPerson(person, draws))
    .filter(({ draws: n }) => n > 0)
    .sort((a, b) => a.person.name.localeCompare(b.person.name))
}

function figuresOfPerson(person: Collector, draws: readonly DrawMeasures[]): PersonFigures {
  const isTheirs = ({ by }: { readonly by: string }): boolean => by === person.id
  const punctures = draws.flatMap((draw) => draw.punctures.filter(isTheirs))
  const bands = draws.flatMap((draw) => draw.bands.filter(isTheirs))
  return {
    person,
    draws: draws.filter((draw) => draw.punctures.some(isTheirs)).length,
    gaveBlood: {
      count: punctures.filter(({ gaveBlood }) => gaveBlood).length,
      of: punctures.reduce((all, { tries }) => all + tries, 0),
    },
    bandOver: { count: bands.filter(({ isOver }) => isOver).length, of: bands.length },
  }
}
