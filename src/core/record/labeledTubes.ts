import { isSpecimen } from '../protocol/sharedPredicates.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'

/** Tubes that need a label: blood went in, and they are not for discarding. In the order drawn. */
export function labeledTubes(facts: DrawFacts): readonly TubeFact[] {
  return facts.tubes.filter((fact) => isSpecimen(fact.tube, fact))
}

/** The last read-back of a tube's label matched. */
export function labelIsRight(facts: DrawFacts, tubeId: string): boolean {
  return facts.readBacks.get(tubeId)?.at(-1)?.matches === true
}
