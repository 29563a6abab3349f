import type { StockTube } from '../../core/catalogue/catalogue.ts'
import type { Plan } from '../../core/plan/plan.ts'
import { mayOpen } from '../../core/plan/decisions.ts'
import { isInputFault } from '../../core/plan/planTexts.ts'
import type { PlanInput } from '../../core/plan/planInput.ts'
import { replan } from '../../core/plan/replan.ts'
import { drawnTubes } from '../../core/protocol/drawnTubes.ts'
import { isFirstNeedle, needleSetOf } from '../../core/protocol/facts.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import type { SiteData } from '../site/siteData.ts'

/**
 * The plan for a further needle, from what is really in the rack; `undefined` where it cannot be made, so that the old
 * plan goes on and nothing is dropped without a word.
 */
export function planAgain(
  s: DrawState,
  site: Pick<SiteData, 'catalogue' | 'stock' | 'bloodLimits'> & Pick<PlanInput, 'texts'>,
  today: string,
  ownStock: readonly StockTube[] | undefined,
): Plan | undefined {
  const { opened, plan } = s
  const { order, patient, preparation, policy } = opened
  const { catalogue, bloodLimits, texts } = site
  const input = {
    order,
    patient,
    preparation,
    needleSet: needleSetOf(s),
    collecting: s.collecting,
    policy,
    catalogue,
    stock: opened.invented ? site.stock : ownStock,
    bloodLimits,
    // Those that the opening tells of, so that one draw has one prediction.
    fillCorrections: opened.fillCorrections,
    texts,
    today,
    vein: s.puncture.vein,
  }
  const idsGiven = opened.plan.tubes.map(({ id }) => id)
  const next = replan(input, plan, drawnTubes(s), { newPuncture: true, idsGiven })
  // What a vein does not give either is then told as missing; the tubes of a lancet are none of a needle's.
  const isFirst = opened.collecting !== s.collecting && isFirstNeedle(s)
  const isSound = !next.problems.some(({ code }) => isInputFault(code))
  return mayOpen(next, opened.approvals ?? []) || (isFirst && isSound) ? next : undefined
}
