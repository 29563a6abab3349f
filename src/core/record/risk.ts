import { slowAfter_s } from '../flow/slowAfter.ts'
import { fillText } from '../basics/fillText.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { limit, limit_ms } from '../policy/policy.ts'
import { mustBeMixed } from '../protocol/sharedPredicates.ts'
import { minutesSeconds } from '../time/format.ts'
import { elapsed } from '../time/stamp.ts'
import { bandOver_ms } from './bandText.ts'
import { cardRisks } from './cardRisks.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'
import { dropRisks } from './dropRisks.ts'
import { factsOf } from './factsOf.ts'
import type { FoundRisk } from './foundRisk.ts'
import { labeledTubes } from './labeledTubes.ts'
import { labelRisks } from './labelRisks.ts'
import { siteRisks } from './siteRisks.ts'
import { syringeRisks } from './syringeRisks.ts'
import { wayRisks } from './wayRisks.ts'
import { isCard, type PlannedTube } from '../plan/plan.ts'
import type { RecordTexts, RiskWording } from './recordTexts.ts'
import { RISKS, type RiskCode, type RiskSource } from './riskTable.ts'
import { sittingRisks } from './sittingRisks.ts'
import { tubeVolume_mL } from './volumeDrawn.ts'

/** Something in the record that may have changed a specimen. */
export interface SpecimenRisk extends RiskWording, RiskSource {
  readonly code: RiskCode
  /** Tubes it concerns, in the order drawn; empty when it is the draw as a whole. */
  readonly tubeIds: readonly string[]
  /** What the record holds, in figures. */
  readonly found: string
}

/**
 * Flags for the specimens of a draw, each with its reason and source. They inform and never hide a specimen.
 * @param needsFasting tells whether a test wants a fasting patient; without it every tube counts as wanting it.
 * @param testName name of a test by its code; the codes themselves without it.
 */
export function specimenRisks(
  log: DrawLog,
  texts: RecordTexts,
  needsFasting: (testCode: string) => boolean = () => true,
  testName: (testCode: string) => string = (code) => code,
): readonly SpecimenRisk[] {
  const facts = factsOf(log)
  const tubes = labeledTubes(facts)
  if (tubes.length === 0) return []
  const found: readonly FoundRisk[] = [
    ...bandRisks(facts, tubes),
    ...fillRisks(facts, tubes),
    ...mixRisks(facts, tubes),
    ...orderRisks(facts),
    ...fastingRisks(facts, tubes, needsFasting),
    ...siteRisks(facts, tubes),
    ...sittingRisks(facts, tubes),
    ...wayRisks(facts, tubes, texts, testName),
    ...labelRisks(facts, tubes),
    ...cardRisks(facts, tubes),
  ]
  return found.map(({ code, tubes: of, found: what, values }) => ({
    code,
    tubeIds: of.map(({ tube }) => tube.id),
    found: fillText(texts.found[what], values),
    ...texts.risks[code],
    ...RISKS[code],
  }))
}

/** A tube is concerned when it went on after the band had passed its limit in the same stretch. */
function bandRisks(facts: DrawFacts, tubes: readonly TubeFact[]): FoundRisk[] {
  const { policy } = facts.opened
  const limit_s = limit(policy, 'bandLimit_s')
  const long = facts.punctures.flatMap(({ bands }) =>
    bands.flatMap((band): FoundRisk[] => {
      if (bandOver_ms(band, policy) === 0) return []
      const concerned = tubes.filter(
        ({ on, off }) =>
          elapsed(band.on, off ?? on).most_ms > limit_ms(policy, 'bandLimit_s') &&
          on.at_ms <= (band.off?.at_ms ?? Infinity) &&
          (off ?? on).at_ms >= band.on.at_ms,
      )
      if (concerned.length === 0) return []
      const length = minutesSeconds(band.length?.most_ms ?? Infinity)
      return [
        { code: 'bandLong', tubes: concerned, found: 'bandLong', values: { length, limit_s } },
      ]
    }),
  )
  const fists: FoundRisk[] =
    facts.fists.length > 0 ? [{ code: 'fistClenched', tubes, found: 'fistClenched' }] : []
  return [...long, ...fists]
}

function fillRisks(facts: DrawFacts, tubes: readonly TubeFact[]): FoundRisk[] {
  // Of a card it counts how many circles are good, not how much blood is in it.
  const filled = tubes.filter(({ tube }) => !isCard(tube))
  const single = filled.flatMap((fact): FoundRisk[] => {
    const { tube, on, off } = fact
    const took_s = off ? elapsed(on, off).least_ms / 1000 : 0
    const slow = facts.exceptions.some(
      ({ kind, tubeId }) => (kind === 'slowFlow' || kind === 'flowLost') && tubeId === tube.id,
    )
    const risks: FoundRisk[] = []
    if (took_s > (slowAfter_s(tube.fill) ?? Infinity) || slow) {
      const values = {
        took_s: Math.round(took_s),
        early_s: Math.round(tube.fill.early_s),
        late_s: Math.round(tube.fill.late_s),
      }
      const found = slow ? 'slowNoted' : 'slowFill'
      risks.push({ code: 'slowFill', tubes: [fact], found, values })
    }
    const volume = tubeVolume_mL(fact)
    if (fact.fill === 'short' || (volume !== undefined && volume < tube.least_mL)) {
      const code = shortCode(tube)
      const values = { drawn_mL: volume ?? '', least_mL: tube.least_mL }
      const found = volume === undefined ? 'shortUnknown' : 'short'
      if (code === 'shortCitrate' || volume === undefined || volume < tube.least_mL) {
        risks.push({ code, tubes: [fact], found, values })
      }
    }
    return risks
  })
  return [
    ...single,
    ...needleRisks(facts, tubes),
    ...skinRisks(facts, tubes),
    ...dropRisks(facts, tubes),
    ...syringeRisks(facts, tubes),
  ]
}

/** What comes of too little blood depends on what is in the tube. */
function shortCode({ role, additive }: PlannedTube): RiskCode {
  if (role === 'culture') return 'shortCulture'
  return additive === 'citrate' ? 'shortCitrate' : 'shortTube'
}

/** Tubes of a puncture before which the skin was not left to dry for its time. */
function skinRisks(facts: DrawFacts, tubes: readonly TubeFact[]): FoundRisk[] {
  const wet = facts.flags.filter(({ flag }) => flag === 'skinNotDry')
  return facts.punctures.flatMap(({ number, cleaned, needleIn }): FoundRisk[] => {
    const first = needleIn[0]
    const drawn = tubes.filter(({ puncture }) => puncture === number)
    if (!cleaned || !first || drawn.length === 0) return []
    const isWet = wet.some(({ at }) => at.at_ms >= cleaned.at_ms && at.at_ms <= first.at_ms)
    return isWet ? [{ code: 'wetSkin', tubes: drawn, found: 'wetSkin' }] : []
  })
}

/** Tubes drawn through a thin needle, unless a wall as thin as can be makes up for the gauge. */
function needleRisks(facts: DrawFacts, tubes: readonly TubeFact[]): FoundRisk[] {
  return facts.punctures.flatMap(({ number, needleSet }): FoundRisk[] => {
    const drawn = tubes.filter(({ puncture }) => puncture === number)
    if (!needleSet || needleSet.gauge < 25 || needleSet.wall === 'ultraThin') return []
    if (drawn.length === 0) return []
    const values = { gauge: needleSet.gauge }
    return [{ code: 'thinNeedle', tubes: drawn, found: 'thinNeedle', values }]
  })
}

function mixRisks(facts: DrawFacts, tubes: readonly TubeFact[]): FoundRisk[] {
  const late_ms = limit_ms(facts.opened.policy, 'mixLate_s')
  return tubes.flatMap((fact): FoundRisk[] => {
    if (!fact.off || !mustBeMixed(fact.tube, fact)) return []
    if (!fact.mixed) return [{ code: 'notMixed', tubes: [fact], found: 'notMixed' }]
    const waited_ms = elapsed(fact.off, fact.mixed).most_ms
    if (waited_ms <= late_ms) return []
    const values = { length: minutesSeconds(waited_ms) }
    return [{ code: 'mixedLate', tubes: [fact], found: 'mixedLate', values }]
  })
}

/** Within one puncture a tube that the plan puts earlier went on after one that it puts later. */
function orderRisks(facts: DrawFacts): FoundRisk[] {
  const place = (fact: TubeFact): number =>
    facts.plan.tubes.findIndex(({ id }) => id === fact.tube.id)
  return facts.tubes.flatMap((fact, index): FoundRisk[] => {
    if (place(fact) < 0) return []
    const before = facts.tubes
      .slice(0, index)
      .filter((other) => other.puncture === fact.puncture && place(other) > place(fact))
    const last = before.at(-1)
    if (!last || fact.tube.role === 'discard' || fact.fill === 'empty') return []
    const values = { tube: last.tube.name }
    return [{ code: 'outOfOrder', tubes: [fact], found: 'outOfOrder', values }]
  })
}

function fastingRisks(
  { opened }: DrawFacts,
  tubes: readonly TubeFact[],
  needsFasting: (testCode: string) => boolean,
): FoundRisk[] {
  const least_h = limit(opened.policy, 'fastingLeast_h')
  const { fasted_h } = opened.preparation
  const concerned = tubes.filter(({ tube }) => tube.tests.some(needsFasting))
  if (concerned.length === 0 || (fasted_h !== undefined && fasted_h >= least_h)) return []
  const found = fasted_h === undefined ? 'fastingNotAsked' : 'fastingShort'
  const values = { fasted_h: fasted_h ?? '', least_h }
  return [{ code: 'notFasting', tubes: concerned, found, values }]
}
