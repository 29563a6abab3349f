import type { TestRow } from '../catalogue/catalogue.ts'
import type { PlanInput } from './planInput.ts'
import { bloodFor_uL, specimenYield } from './specimenYield.ts'
import type { UsableTube } from './usableStock.ts'

/** The nearest reason why no tube in the rack serves a test. */
export function whyUncovered(
  test: TestRow,
  { catalogue, stock, today }: PlanInput,
  usable: readonly UsableTube[],
  haematocrit_pct: number,
): string {
  const additives = test.accepts.map((need) => need.additive)
  const wanted = `It needs ${additives.join(' or ')}.`
  const codes = catalogue.tubes.filter((t) => additives.includes(t.additive)).map((t) => t.code)
  if (codes.length === 0) return `${wanted} The catalog has no such tube.`
  const lots = stock.filter((lot) => codes.includes(lot.tubeCode) && lot.count > 0)
  if (lots.length === 0) return `${wanted} No such tube is on hand.`
  if (lots.every((lot) => lot.expires < today)) return `${wanted} All such tubes have expired.`
  const needs = test.accepts.map((need) => ({
    ...need,
    blood_mL:
      bloodFor_uL(test.least_mL, specimenYield(need.kind, haematocrit_pct, catalogue.norms)) / 1000,
  }))
  const fits = usable.some(({ tube }) =>
    needs.some((need) => need.additive === tube.additive && need.blood_mL <= tube.nominal_mL),
  )
  if (!fits) {
    const least = Math.min(...needs.map((need) => need.blood_mL))
    return `${wanted} It takes ${least.toFixed(1)} mL of blood in one tube, and no such tube on hand is that large.`
  }
  return `${wanted} There are not enough such tubes on hand for the whole order.`
}
