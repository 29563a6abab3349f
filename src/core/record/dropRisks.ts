import type { Stamp } from '../time/stamp.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'
import type { FoundRisk } from './foundRisk.ts'

/** What befell the drops of a puncture concerns every tube of it. */
export function dropRisks(facts: DrawFacts, tubes: readonly TubeFact[]): FoundRisk[] {
  const slow = facts.exceptions.flatMap(({ kind, at }) => (kind === 'slowDrops' ? [at] : []))
  return facts.punctures.flatMap(
    ({ number, needleIn: [from], bleedingStopped: to }): FoundRisk[] => {
      const drawn = tubes.filter(({ puncture }) => puncture === number)
      const here = ({ at_ms }: Stamp): boolean =>
        from !== undefined && at_ms >= from.at_ms && at_ms <= (to?.at_ms ?? Infinity)
      if (drawn.length === 0) return []
      return [
        ...(facts.squeezes.some(here)
          ? [{ code: 'squeezed', tubes: drawn, found: 'squeezed' } as const]
          : []),
        ...(slow.some(here)
          ? [{ code: 'slowDrops', tubes: drawn, found: 'slowDrops' } as const]
          : []),
      ]
    },
  )
}
