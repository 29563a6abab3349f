import type { DrawFacts, TubeFact } from './drawFacts.ts'
import type { FoundRisk } from './foundRisk.ts'
import { goesUnlabelled, labelIsRight } from './labeledTubes.ts'

/** Whose blood it is rests on something else than a label that was read back; or the times may be wrong. */
export function labelRisks(facts: DrawFacts, tubes: readonly TubeFact[]): readonly FoundRisk[] {
  const unread = facts.closed
    ? tubes.filter(({ tube: { id } }) => !labelIsRight(facts, id) && !goesUnlabelled(facts, id))
    : []
  const uncertain =
    facts.clockSteps.length > 0 || facts.flags.some(({ flag }) => flag === 'clockUncertain')
  return [
    ...tubes.flatMap((fact): FoundRisk[] => {
      const last = facts.unlabelled.findLast(({ tubeId }) => tubeId === fact.tube.id)
      if (!last || last.at.at_ms < fact.on.at_ms) return []
      const found = goesUnlabelled(facts, fact.tube.id) ? 'unlabelled' : 'labeledLate'
      return [{ code: 'unlabelled', tubes: [fact], found, values: { by: last.by } }]
    }),
    ...unread.map((fact): FoundRisk => ({
      code: 'labelNotRead',
      tubes: [fact],
      found: 'labelNotRead',
    })),
    ...(uncertain
      ? [{ code: 'timeUncertain', tubes, found: 'timeUncertain' } satisfies FoundRisk]
      : []),
  ]
}
