import { isCard } from '../plan/plan.ts'
import { limit } from '../policy/policy.ts'
import { CIRCLE_FINDINGS, type CircleFinding } from '../protocol/events.ts'
import type { Stamp } from '../time/stamp.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'

/** A newborn card was planned, so that what goes with it is told, also where nobody asked. */
export const hasCard = ({ opened, plan, tubes }: DrawFacts): boolean =>
  [...opened.plan.tubes, ...plan.tubes, ...tubes.map(({ tube }) => tube)].some(isCard)

/** Hours from birth to when the skin was first opened, by local time; `undefined` where either is not known. */
export function ageAtCollection_h({ answers, punctures }: DrawFacts): number | undefined {
  const lanced = punctures.flatMap(({ needleIn }) => needleIn)[0]
  const born_ms = answers.bornAt === undefined ? NaN : Date.parse(`${answers.bornAt}:00Z`)
  if (!lanced || !Number.isFinite(born_ms)) return undefined
  return Math.floor((localTime_ms(lanced) - born_ms) / 3_600_000)
}

const localTime_ms = ({ at_ms, offset_min }: Stamp): number => at_ms + offset_min * 60_000

/** How many circles of a card were found how, the good ones first, and how many it has. */
export function circleCounts(
  { opened }: DrawFacts,
  { circles = [] }: TubeFact,
): {
  readonly good: number
  readonly of: number
  readonly bad: readonly { readonly finding: Exclude<CircleFinding, 'good'>; readonly n: number }[]
} {
  const count = (finding: CircleFinding): number => circles.filter((one) => one === finding).length
  return {
    good: count('good'),
    of: limit(opened.policy, 'cardCircles_n'),
    bad: CIRCLE_FINDINGS.flatMap((finding) => {
      const n = count(finding)
      return finding === 'good' || n === 0 ? [] : [{ finding, n }]
    }),
  }
}
