import { isSpecimenNumber, specimenNumber } from '../protocol/specimenNumber.ts'
import { isSpecimen } from '../protocol/sharedPredicates.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'
import { saysWrongPerson } from './saysWrongPerson.ts'

/**
 * Tubes that need a label: blood went in, and they are not for discarding. In the order drawn. None where the
 * identity did not match: that blood is somebody's, and no laboratory may take it for the patient's.
 */
export function labeledTubes(facts: DrawFacts): readonly TubeFact[] {
  if (isOfStranger(facts)) return []
  return facts.tubes.filter((fact) => isSpecimen(fact.tube, fact))
}

/** Those of them that serve the order: none once an addendum says that all of the record is of another person. */
export const tubesForOrder = (facts: DrawFacts): readonly TubeFact[] =>
  saysWrongPerson(facts.addenda) ? [] : labeledTubes(facts)

/** The identity did not match: the blood is another person's, whoever the order names. */
export const isOfStranger = ({ exceptions }: DrawFacts): boolean =>
  exceptions.some(({ kind }) => kind === 'identityMismatch')

/** The number that a tube's label should bear: the laboratory's own where its label is on the tube, else ours. */
export function labelNumberOf(facts: DrawFacts, tubeId: string): string {
  return facts.accessions.get(tubeId)?.accession ?? ownNumberOf(facts, tubeId)
}

/** The number that this app gives a tube; one drawn in the place of a lost one has another than that one had. */
export function ownNumberOf({ opened, redrawn }: DrawFacts, tubeId: string): string {
  return specimenNumber(opened.drawId, tubeId, redrawn.get(tubeId))
}

/** By somebody's decision the tube in the rack goes to the laboratory without a label. */
export function goesUnlabelled({ unlabelled, swaps }: DrawFacts, tubeId: string): boolean {
  const last = unlabelled.findLast((fact) => fact.tubeId === tubeId)
  const lost = swaps.get(tubeId)?.at(-1)
  return last?.how === 'sentAsIs' && !(lost && lost.at.at_ms >= last.at.at_ms)
}

/** The last read-back of a tube's label matched, and was of the number that it bears now. */
export function labelIsRight(facts: DrawFacts, tubeId: string): boolean {
  const last = facts.readBacks.get(tubeId)?.at(-1)
  return (
    last?.matches === true && isSpecimenNumber(last.specimenNumber, labelNumberOf(facts, tubeId))
  )
}
