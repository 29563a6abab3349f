import type { DrawLog } from '../protocol/entry.ts'
import { limit, limit_ms } from '../policy/policy.ts'
import { mustBeMixed } from '../protocol/sharedPredicates.ts'
import { minutesSeconds } from '../time/format.ts'
import { elapsed } from '../time/stamp.ts'
import { bandOver_ms } from './bandText.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'
import { factsOf } from './factsOf.ts'
import { labeledTubes, labelIsRight } from './labeledTubes.ts'
import { RISKS, type RiskCode, type RiskWording } from './riskTable.ts'
import { tubeVolume_mL } from './volumeDrawn.ts'

/** Something in the record that may have changed a specimen. */
export interface SpecimenRisk extends RiskWording {
  readonly code: RiskCode
  /** Tubes it concerns, in the order drawn; empty when it is the draw as a whole. */
  readonly tubeIds: readonly string[]
  /** What the record holds, in figures. */
  readonly found: string
}

type Found = readonly [code: RiskCode, tubes: readonly TubeFact[], found: string]

/**
 * Flags for the specimens of a draw, each with its reason and source. They inform and never hide a specimen.
 * @param needsFasting tells whether a test wants a fasting patient; without it every tube counts as wanting it.
 */
export function specimenRisks(
  log: DrawLog,
  needsFasting: (testCode: string) => boolean = () => true,
): readonly SpecimenRisk[] {
  const facts = factsOf(log)
  const tubes = labeledTubes(facts)
  if (tubes.length === 0) return []
  const found: readonly Found[] = [
    ...bandRisks(facts, tubes),
    ...fillRisks(facts, tubes),
    ...mixRisks(facts, tubes),
    ...orderRisks(facts),
    ...fastingRisks(facts, tubes, needsFasting),
    ...afterRisks(facts, tubes),
  ]
  return found.map(([code, of, text]) => ({
    code,
    tubeIds: of.map(({ tube }) => tube.id),
    found: text,
    ...RISKS[code],
  }))
}

/** A tube is concerned when it went on after the band had passed its limit in the same stretch. */
function bandRisks(facts: DrawFacts, tubes: readonly TubeFact[]): Found[] {
  const { policy } = facts.opened
  const limit_s = limit(policy, 'bandLimit_s')
  const long = facts.punctures.flatMap(({ bands }) =>
    bands.flatMap((band): Found[] => {
      if (bandOver_ms(band, policy) === 0) return []
      const concerned = tubes.filter(
        ({ on, off }) =>
          elapsed(band.on, off ?? on).most_ms > limit_ms(policy, 'bandLimit_s') &&
          on.at_ms <= (band.off?.at_ms ?? Infinity) &&
          (off ?? on).at_ms >= band.on.at_ms,
      )
      const length = minutesSeconds(band.length?.most_ms ?? Infinity)
      return concerned.length === 0
        ? []
        : [['bandLong', concerned, `On for ${length}; the limit is ${limit_s} s.`]]
    }),
  )
  const fists: Found[] =
    facts.fists.length > 0 ? [['fistClenched', tubes, 'A clenched fist was noted.']] : []
  return [...long, ...fists]
}

function fillRisks(facts: DrawFacts, tubes: readonly TubeFact[]): Found[] {
  const single = tubes.flatMap((fact): Found[] => {
    const { tube, on, off } = fact
    const took_s = off ? elapsed(on, off).least_ms / 1000 : 0
    const slow = facts.exceptions.some(
      ({ kind, tubeId }) => (kind === 'slowFlow' || kind === 'flowLost') && tubeId === tube.id,
    )
    const risks: Found[] = []
    if (took_s > tube.fill.late_s || slow) {
      const expected = `${Math.round(tube.fill.early_s)} to ${Math.round(tube.fill.late_s)} s`
      const noted = slow ? ' Slow or lost flow was noted.' : ''
      const found = `On for ${Math.round(took_s)} s; ${expected} was expected.${noted}`
      risks.push(['slowFill', [fact], found])
    }
    const volume = tubeVolume_mL(fact)
    if (fact.fill === 'short' || (volume !== undefined && volume < tube.least_mL)) {
      const code = tube.additive === 'citrate' ? 'shortCitrate' : 'shortTube'
      const drawn = volume === undefined ? 'Volume not recorded' : `${volume} mL`
      if (code === 'shortCitrate' || volume === undefined || volume < tube.least_mL) {
        risks.push([code, [fact], `${drawn}; at least ${tube.least_mL} mL is asked for.`])
      }
    }
    return risks
  })
  const { gauge } = facts.opened.needleSet
  return gauge >= 25 ? [...single, ['thinNeedle', tubes, `The needle was ${gauge} G.`]] : single
}

function mixRisks(facts: DrawFacts, tubes: readonly TubeFact[]): Found[] {
  const late_ms = limit_ms(facts.opened.policy, 'mixLate_s')
  return tubes.flatMap((fact): Found[] => {
    if (!fact.off || !mustBeMixed(fact.tube, fact)) return []
    if (!fact.mixed) return [['notMixed', [fact], 'No mixing stands in the record.']]
    const waited_ms = elapsed(fact.off, fact.mixed).most_ms
    if (waited_ms <= late_ms) return []
    return [['mixedLate', [fact], `Mixed ${minutesSeconds(waited_ms)} after it came off.`]]
  })
}

/** Within one puncture a tube that the plan puts earlier went on after one that it puts later. */
function orderRisks(facts: DrawFacts): Found[] {
  const place = (fact: TubeFact): number =>
    facts.plan.tubes.findIndex(({ id }) => id === fact.tube.id)
  return facts.tubes.flatMap((fact, index): Found[] => {
    if (place(fact) < 0) return []
    const before = facts.tubes
      .slice(0, index)
      .filter((other) => other.puncture === fact.puncture && place(other) > place(fact))
    const last = before.at(-1)
    if (!last || fact.tube.role === 'discard' || fact.fill === 'empty') return []
    return [['outOfOrder', [fact], `Drawn after ${last.tube.name}; planned before it.`]]
  })
}

function fastingRisks(
  { opened }: DrawFacts,
  tubes: readonly TubeFact[],
  needsFasting: (testCode: string) => boolean,
): Found[] {
  const least_h = limit(opened.policy, 'fastingLeast_h')
  const { fasted_h } = opened.preparation
  const concerned = tubes.filter(({ tube }) => tube.tests.some(needsFasting))
  if (concerned.length === 0 || (fasted_h !== undefined && fasted_h >= least_h)) return []
  const found = fasted_h === undefined ? 'Fasting was not asked.' : `Fasted ${fasted_h} h`
  return [['notFasting', concerned, `${found}; ${least_h} h is the least.`.replace('.;', ';')]]
}

function afterRisks(facts: DrawFacts, tubes: readonly TubeFact[]): Found[] {
  const { courier } = facts
  const late = tubes.filter(({ tube, off }) => {
    if (!courier || !off || tube.timeLimit_min === undefined) return false
    return elapsed(off, courier).most_ms > tube.timeLimit_min * 60_000
  })
  const early = tubes.filter(({ tube, off }) => {
    const spin = facts.spins.find(({ tubeIds }) => tubeIds.includes(tube.id))
    if (!spin || !off || tube.clot_min === undefined) return false
    return elapsed(off, spin.at).least_ms < tube.clot_min * 60_000
  })
  const separate_min = limit(facts.opened.policy, 'separate_min')
  const onCells = tubes.flatMap((fact): Found[] => {
    const spin = facts.spins.find(({ tubeIds }) => tubeIds.includes(fact.tube.id))
    const until = spin?.at ?? courier
    if (!until || !fact.off || fact.tube.clot_min === undefined) return []
    const passed_min = elapsed(fact.off, until).most_ms / 60_000
    if (passed_min <= separate_min) return []
    const what = spin ? 'Spun' : 'Handed over unspun'
    const found = `${what} ${Math.ceil(passed_min)} min after collection; the limit is ${separate_min} min.`
    return [['separatedLate', [fact], found]]
  })
  const unread = facts.closed ? tubes.filter(({ tube }) => !labelIsRight(facts, tube.id)) : []
  const uncertain =
    facts.clockSteps.length > 0 || facts.flags.some(({ flag }) => flag === 'clockUncertain')
  return [
    ...late.map((fact): Found => ['overTime', [fact], `Limit ${fact.tube.timeLimit_min} min.`]),
    ...early.map((fact): Found => ['spunEarly', [fact], `Clots in ${fact.tube.clot_min} min.`]),
    ...onCells,
    ...unread.map((fact): Found => ['labelNotRead', [fact], 'No matching read-back.']),
    ...(uncertain ? [['timeUncertain', tubes, 'The clock moved during the draw.'] as const] : []),
  ]
}
