import { limit } from '../policy/policy.ts'
import { HANDLED, isSpun } from '../protocol/handled.ts'
import { elapsed, type Stamp } from '../time/stamp.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'
import type { FoundRisk } from './foundRisk.ts'
import type { RecordTexts } from './recordTexts.ts'

/** Ice, warmth and foil are asked for at once; so much later counts as late (common practice, no source), minutes. */
const HANDLED_LATE_min = 5

/** What befell a specimen on its way from the holder to the laboratory. */
export function wayRisks(
  facts: DrawFacts,
  tubes: readonly TubeFact[],
  texts: RecordTexts,
  testName: (testCode: string) => string,
): readonly FoundRisk[] {
  return tubes.flatMap((fact) => [
    ...handlingRisks(facts, fact, texts),
    ...limitRisks(facts, fact, testName),
    ...spinRisks(facts, fact),
  ])
}

const spunAt = ({ spins }: DrawFacts, { tube }: TubeFact): Stamp | undefined =>
  spins.find(({ tubeIds }) => tubeIds.includes(tube.id))?.at

const minutes = (ms: number): number => Math.ceil(ms / 60_000)

/** Not on ice, warm or dark as asked for, or only after some minutes. Of an open draw nothing is said to be missing. */
function handlingRisks(facts: DrawFacts, fact: TubeFact, texts: RecordTexts): FoundRisk[] {
  const { off, handled, tube } = fact
  if (!off) return []
  return HANDLED.filter((how) => tube.handling.includes(how)).flatMap((how): FoundRisk[] => {
    const what = texts.handled[how]
    const at = handled?.[how]
    if (!at) {
      const isOver = facts.closed !== undefined || facts.courier !== undefined
      if (!isOver) return []
      return [{ code: 'handledLate', tubes: [fact], found: 'notHandled', values: { what } }]
    }
    const waited_ms = elapsed(off, at).most_ms
    if (waited_ms <= HANDLED_LATE_min * 60_000) return []
    const values = { what, passed_min: minutes(waited_ms) }
    return [{ code: 'handledLate', tubes: [fact], found: 'handledLate', values }]
  })
}

/** Over the limit of a test in it, held against the spin where that ends it; or no hand-over is recorded. */
function limitRisks(
  facts: DrawFacts,
  fact: TubeFact,
  testName: (testCode: string) => string,
): FoundRisk[] {
  const { off, tube } = fact
  const { timeLimit_min: limit_min } = tube
  if (limit_min === undefined || !off) return []
  const of = tube.timeLimitOf === undefined ? tube.tests : [tube.timeLimitOf]
  const test = of.map(testName).join(', ')
  const until = (isSpun(tube) ? spunAt(facts, fact) : undefined) ?? facts.courier
  if (!until) {
    if (!facts.closed) return []
    const values = { test, limit_min }
    return [{ code: 'handOverOpen', tubes: [fact], found: 'handOverOpen', values }]
  }
  const passed_ms = elapsed(fact.pulled ?? off, until).most_ms
  if (passed_ms <= limit_min * 60_000) return []
  const values = { test, limit_min, passed_min: minutes(passed_ms) }
  return [{ code: 'overTime', tubes: [fact], found: 'overTime', values }]
}

/** Spun before it had clotted, or serum or plasma too long on the cells. */
function spinRisks(facts: DrawFacts, fact: TubeFact): FoundRisk[] {
  const { off, tube } = fact
  if (!off || !isSpun(tube)) return []
  const spun = spunAt(facts, fact)
  const { clot_min } = tube
  const early: FoundRisk[] =
    spun && clot_min !== undefined && elapsed(off, spun).least_ms < clot_min * 60_000
      ? [{ code: 'spunEarly', tubes: [fact], found: 'spunEarly', values: { clot_min } }]
      : []
  const until = spun ?? facts.courier
  const limit_min = limit(facts.opened.policy, 'separate_min')
  if (!until) return early
  const passed_ms = elapsed(off, until).most_ms
  if (passed_ms <= limit_min * 60_000) return early
  const values = { passed_min: minutes(passed_ms), limit_min }
  const found = spun ? 'spunLate' : 'unspun'
  return [...early, { code: 'separatedLate', tubes: [fact], found, values }]
}
