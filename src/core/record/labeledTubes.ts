import { isSpecimenNumber, specimenNumber } from '../protocol/specimenNumber.ts'
import { isSpecimen } from '../protocol/sharedPredicates.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'

/** Tubes that need a label: blood went in, and they are not for discarding. In the order drawn. */
export function labeledTubes(facts: DrawFacts): readonly TubeFact[] {
  return facts.tubes.filter((fact) => isSpecimen(fact.tube, fact))
}

/** The number that a tube's label should bear: the laboratory's own where its label is on the tube, else ours. */
export function labelNumberOf({ opened, accessions }: DrawFacts, tubeId: string): string {
  return accessions.get(tubeId)?.accession ?? specimenNumber(opened.drawId, tubeId)
}

/** The last read-back of a tube's label matched, and was of the number that it bears now. */
export function labelIsRight(facts: DrawFacts, tubeId: string): boolean {
  const last = facts.readBacks.get(tubeId)?.at(-1)
  return (
    last?.matches === true && isSpecimenNumber(last.specimenNumber, labelNumberOf(facts, tubeId))
  )
}
