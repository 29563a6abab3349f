import { shownNumber } from '../basics/shownNumber.ts'
import { fillText } from '../basics/fillText.ts'
import type { TestRow } from '../catalogue/catalogue.ts'
import type { PlanInput } from './planInput.ts'
import type { UncoveredReason } from './planTexts.ts'
import { bloodFor_uL, specimenYield } from './specimenYield.ts'
import { drawsBySyringe } from './syringeNeed.ts'
import { isForDrops, isForSyringe, isForVein } from './tubesForAge.ts'
import type { UsableTube } from './usableStock.ts'

/** The nearest reason why no tube in the rack serves a test. */
export function whyUncovered(
  test: TestRow,
  { catalogue, stock, today, texts, collecting, needleSet }: PlanInput,
  usable: readonly UsableTube[],
  haematocrit_pct: number,
): string {
  const accepted = test.accepts.map((need) => need.additive)
  const { language, whyUncovered: reasons } = texts.plan
  const additives = new Intl.ListFormat(language, { type: 'disjunction' }).format(
    accepted.map((additive) => texts.catalogue.additives[additive]),
  )
  const because = (reason: UncoveredReason, least_mL = ''): string =>
    fillText(reasons[reason], { additives, least_mL })
  if (collecting && test.notCapillary) return because('notCapillary')
  const kinds = catalogue.tubes.filter((t) => accepted.includes(t.additive))
  if (!collecting && kinds.length > 0 && !kinds.some(isForVein)) return because('cardOnly')
  const bySyringe = drawsBySyringe({ collecting, needleSet })
  if (bySyringe && kinds.length > 0 && !kinds.some(isForSyringe)) return because('notBySyringe')
  const codes = kinds.filter((t) => !collecting || isForDrops(t)).map((t) => t.code)
  if (codes.length === 0) return because('noSuchTube')
  const lots = stock?.filter((lot) => codes.includes(lot.tubeCode) && lot.count > 0)
  if (lots?.length === 0) return because('noneOnHand')
  if (lots?.every((lot) => lot.expires < today) === true) return because('allExpired')
  const needs = test.accepts.map((need) => ({
    ...need,
    blood_mL:
      bloodFor_uL(test.least_mL, specimenYield(need.kind, haematocrit_pct, catalogue.norms)) / 1000,
  }))
  const fits = usable.some(({ tube }) =>
    needs.some((need) => need.additive === tube.additive && need.blood_mL <= tube.nominal_mL),
  )
  if (fits) return because('notEnough')
  return because('noneLargeEnough', shownNumber(Math.min(...needs.map((need) => need.blood_mL)), 1))
}
