import type { ExceptionKind } from '../protocol/exceptions.ts'
import type { Stamp } from '../time/stamp.ts'
import type { DrawFacts, PunctureFact, TubeFact } from './drawFacts.ts'
import type { FoundRisk } from './foundRisk.ts'

/** What the place of the puncture, or the first blood out of the line, may have done to a specimen. */
export function siteRisks(facts: DrawFacts, tubes: readonly TubeFact[]): readonly FoundRisk[] {
  return facts.punctures.flatMap((puncture): FoundRisk[] => {
    const drawn = tubes.filter(({ puncture: number }) => number === puncture.number)
    if (drawn.length === 0) return []
    const { arm } = puncture
    const seen = facts.armsSeen.some((fact) => fact.arm === arm && fact.finding === 'infusion')
    const told = arm && facts.opened.preparation.restrictions[arm]
    const artery = happenedIn(facts, puncture, 'brightBlood')
    const swelling = happenedIn(facts, puncture, 'swelling').filter((at) => isIn(puncture, at))
    return [
      ...(seen || told === 'infusion'
        ? [{ code: 'infusionArm', tubes: drawn, found: 'infusionArm' } satisfies FoundRisk]
        : []),
      ...(artery.length > 0
        ? [{ code: 'artery', tubes: drawn, found: 'artery' } satisfies FoundRisk]
        : []),
      ...(swelling.length > 0
        ? [{ code: 'swelling', tubes: drawn, found: 'swelling' } satisfies FoundRisk]
        : []),
      ...noDiscard(facts, puncture, drawn),
    ]
  })
}

/** When something befell the patient under this needle or after it, before the next one went in. */
function happenedIn(
  { exceptions, punctures }: DrawFacts,
  { number, needleIn }: PunctureFact,
  kind: ExceptionKind,
): readonly Stamp[] {
  const from = needleIn[0]?.at_ms
  const next = punctures.find((other) => other.number > number)?.needleIn[0]?.at_ms ?? Infinity
  return exceptions
    .filter(({ kind: other, at }) => {
      return other === kind && from !== undefined && at.at_ms >= from && at.at_ms < next
    })
    .map(({ at }) => at)
}

/** Blood was still being drawn: swelling under the pressure afterwards is none of the specimens' affair. */
const isIn = ({ needleOut }: PunctureFact, at: Stamp): boolean =>
  needleOut === undefined || at.at_ms <= needleOut.at_ms

/** The air of the tubing went into a citrate tube, with nothing drawn before it. */
function noDiscard(
  { tubes }: DrawFacts,
  { number, needleSet }: PunctureFact,
  drawn: readonly TubeFact[],
): FoundRisk[] {
  const [first] = tubes.filter(({ puncture }) => puncture === number)
  if (needleSet?.kind !== 'winged' || needleSet.syringe_mL !== undefined) return []
  if (first?.tube.additive !== 'citrate') return []
  if (first.tube.role === 'discard' || !drawn.includes(first)) return []
  return [{ code: 'noDiscard', tubes: [first], found: 'noDiscard' }]
}
