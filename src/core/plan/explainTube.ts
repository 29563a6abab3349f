import { fillText } from '../basics/fillText.ts'
import { DRAW_GROUP, dropGroup } from '../catalogue/orderOfDraw.ts'
import { lineVolume_mL } from '../flow/lineVolume.ts'
import type { NeedleSet } from '../order/order.ts'
import type { ChosenTube } from './chosen.ts'
import type { PlanInput } from './planInput.ts'
import { mL, named } from './planWords.ts'
import { fillOf_mL } from './usableStock.ts'

/** Why this tube is in the rack and why it stands where it does; `drops` have an order of their own. */
export function explainTube(
  { usable, tests, used_mL }: ChosenTube,
  { plan, catalogue }: PlanInput['texts'],
  drops = false,
): string {
  const { additive } = usable.tube
  return fillText(plan.whyTube.specimen, {
    tests: named(
      tests.map((test) => test.name),
      plan,
    ),
    used_mL: mL(used_mL),
    fill_mL: mL(fillOf_mL(usable)),
    whyHere: drops ? plan.whyDrop[dropGroup(additive)] : catalogue.whyHere[DRAW_GROUP[additive]],
  })
}

/** Why a discard tube leads the rack: for citrate, or for another first tube that cannot spare the air. */
export function explainDiscard(
  set: NeedleSet,
  first: ChosenTube | undefined,
  { plan }: PlanInput['texts'],
): string {
  const why = first?.usable.tube.additive === 'citrate' ? 'discard' : 'air'
  return fillText(plan.whyTube[why], { air_mL: mL(lineVolume_mL(set)) })
}
