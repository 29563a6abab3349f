import type { DrawFacts, TubeFact } from './drawFacts.ts'
import type { FoundRisk } from './foundRisk.ts'
import { sinceDose_h, timePointsOf } from './sittingFacts.ts'

/** Samples of a series outside their time, and levels of a drug whose dose is not known or too recent. */
export function sittingRisks(facts: DrawFacts, tubes: readonly TubeFact[]): FoundRisk[] {
  return [...timeRisks(facts, tubes), ...siteRisks(facts, tubes), ...doseRisks(facts, tubes)]
}

function timeRisks(facts: DrawFacts, tubes: readonly TubeFact[]): FoundRisk[] {
  return tubes.flatMap((tube) =>
    timePointsOf(facts, tube).flatMap(({ part, punctuality }): FoundRisk[] => {
      const { point } = part
      if (part.from !== undefined && !punctuality) {
        const found = part.from === 'nextDose' ? 'nextDoseMissing' : 'momentMissing'
        return [{ code: 'timeUnknown', tubes: [tube], found, values: { point } }]
      }
      if (!punctuality || punctuality.verdict === 'inTime') return []
      const found = punctuality.verdict === 'early' ? 'drawnEarly' : 'drawnLate'
      const values = {
        point,
        by_min: punctuality.by_min,
        tolerance_min: part.from === 'nextDose' ? 0 : (part.tolerance_min ?? 0),
      }
      return [{ code: 'offTime', tubes: [tube], found, values }]
    }),
  )
}

/** A further set from the site of the one before cannot tell an infection from the skin of one place. */
function siteRisks(facts: DrawFacts, tubes: readonly TubeFact[]): FoundRisk[] {
  const { parts = [], sitesBefore = [] } = facts.opened.sitting ?? {}
  const tests = parts.flatMap((part) => (part.apart === 'otherSite' ? part.tests : []))
  const again = tubes.filter(({ tube, puncture }) => {
    const site = facts.punctures.find(({ number }) => number === puncture)
    const known = sitesBefore.some(({ arm, vein }) => arm === site?.arm && vein === site.vein)
    return known && tube.tests.some((test) => tests.includes(test))
  })
  return again.length > 0 ? [{ code: 'sameSite', tubes: again, found: 'sameSite' }] : []
}

function doseRisks({ opened }: DrawFacts, tubes: readonly TubeFact[]): FoundRisk[] {
  return (opened.preparation.lastDoses ?? []).flatMap(({ test, at, least_h }): FoundRisk[] => {
    const [tube] = tubes.filter((each) => each.tube.tests.includes(test))
    if (!tube) return []
    const since_h = sinceDose_h(at, tube.off ?? tube.on)
    if (since_h === undefined) return [{ code: 'doseTime', tubes: [tube], found: 'doseMissing' }]
    if (least_h === undefined || since_h >= least_h) return []
    const values = { since_h: Math.round(since_h * 10) / 10, least_h }
    return [{ code: 'doseTime', tubes: [tube], found: 'doseSoon', values }]
  })
}
