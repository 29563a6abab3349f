import { isMicro } from '../plan/plan.ts'
import { limit, limit_ms } from '../policy/policy.ts'
import { minutesSeconds } from '../time/format.ts'
import { elapsed } from '../time/stamp.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'
import type { FoundRisk } from './foundRisk.ts'
import { syringeOf } from './syringeFacts.ts'

/** What may have befallen blood between the vein and its tube, in a syringe. */
export function syringeRisks(facts: DrawFacts, tubes: readonly TubeFact[]): readonly FoundRisk[] {
  const { policy } = facts.opened
  const slow = facts.exceptions.flatMap(({ kind, at }) => (kind === 'slowPull' ? [at] : []))
  return tubes.flatMap((tube): FoundRisk[] => {
    const puncture = syringeOf(facts, tube)
    if (!puncture) return []
    const { needleIn, needleOut, pulled, transfer } = puncture
    const from_ms = needleIn[0]?.at_ms ?? Infinity
    const to_ms = needleOut?.at_ms ?? Infinity
    const stood_ms = pulled ? elapsed(pulled.at, tube.on).least_ms : 0
    return [
      ...(slow.some(({ at_ms }) => at_ms >= from_ms && at_ms <= to_ms)
        ? [{ code: 'slowPull', tubes: [tube], found: 'slowPull' } as const]
        : []),
      ...(stood_ms > limit_ms(policy, 'transferMost_s')
        ? [
            {
              code: 'transferLate',
              tubes: [tube],
              found: 'transferLate',
              values: {
                length: minutesSeconds(stood_ms),
                limit_s: limit(policy, 'transferMost_s'),
              },
            } as const,
          ]
        : []),
      ...(!isMicro(tube.tube) && (transfer === undefined || transfer.at_ms > tube.on.at_ms)
        ? [{ code: 'noTransferDevice', tubes: [tube], found: 'noTransferDevice' } as const]
        : []),
    ]
  })
}
