import { limit } from '../policy/policy.ts'
import { COLD_PLACES } from '../protocol/benchEvents.ts'
import { HANDLED, isGel, isSpun } from '../protocol/handled.ts'
import { leftAt, NOT_GONE_FAR, wayElapsed, type SpecimenWay } from '../protocol/specimenWay.ts'
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
    ...benchRisks(facts, fact, texts),
  ])
}

const wayOf = ({ ways }: DrawFacts, { tube }: TubeFact): SpecimenWay =>
  ways.get(tube.id) ?? NOT_GONE_FAR

const spunAt = (facts: DrawFacts, fact: TubeFact): Stamp | undefined =>
  wayOf(facts, fact).spins[0]?.started

const minutes = (ms: number): number => Math.ceil(ms / 60_000)

/** Not on ice, warm or dark as asked for, or only after some minutes. Of an open draw nothing is said to be missing. */
function handlingRisks(facts: DrawFacts, fact: TubeFact, texts: RecordTexts): FoundRisk[] {
  const { off, handled, tube } = fact
  if (!off) return []
  return HANDLED.filter((how) => tube.handling.includes(how)).flatMap((how): FoundRisk[] => {
    const what = texts.handled[how]
    const at = handled?.[how]
    if (!at) {
      const isOver = facts.closed !== undefined || leftAt(wayOf(facts, fact)) !== undefined
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
  const until = (isSpun(tube) ? spunAt(facts, fact) : undefined) ?? leftAt(wayOf(facts, fact))
  if (!until) {
    if (!facts.closed) return []
    const values = { test, limit_min }
    return [{ code: 'handOverOpen', tubes: [fact], found: 'handOverOpen', values }]
  }
  const passed_ms = wayElapsed(fact.pulled ?? off, until).most_ms
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
    spun && clot_min !== undefined && wayElapsed(off, spun).least_ms < clot_min * 60_000
      ? [{ code: 'spunEarly', tubes: [fact], found: 'spunEarly', values: { clot_min } }]
      : []
  const way = wayOf(facts, fact)
  // Behind gel the spin itself separates; without, serum or plasma stays on the cells until somebody takes it off.
  const parted = isGel(tube) ? undefined : way.separated
  const until = parted ?? spun ?? way.separated ?? leftAt(way)
  const limit_min = limit(facts.opened.policy, 'separate_min')
  if (!until) return early
  const passed_ms = wayElapsed(off, until).most_ms
  if (passed_ms <= limit_min * 60_000) return early
  const values = { passed_min: minutes(passed_ms), limit_min }
  const found = parted ? 'partedLate' : spun ? 'spunLate' : 'unspun'
  return [...early, { code: 'separatedLate', tubes: [fact], found, values }]
}

/** A gel that was spun again lets through what it had parted; whole blood that became cold. */
function benchRisks(facts: DrawFacts, fact: TubeFact, texts: RecordTexts): FoundRisk[] {
  const { tube } = fact
  const { spins, stored, separated, aliquots } = wayOf(facts, fact)
  const twice: FoundRisk[] =
    spins.length > 1
      ? [{ code: 'spunTwice', tubes: [fact], found: 'spunTwice', values: { n: spins.length } }]
      : []
  const isWhole = spins.length === 0 && !separated && !aliquots
  const mustStayWarm = tube.role === 'culture' || (tube.additive === 'citrate' && isWhole)
  if (!stored || !mustStayWarm || tube.handling.includes('ice')) return twice
  if (!COLD_PLACES.includes(stored.where)) return twice
  const values = { where: texts.places[stored.where] }
  return [...twice, { code: 'keptCold', tubes: [fact], found: 'keptCold', values }]
}
