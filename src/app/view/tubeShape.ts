import { plannedFill_mL, type PlannedTube } from '../../core/plan/plan.ts'

/** What a tube is drawn as. */
export type TubeShape = 'tube' | 'bottle' | 'micro' | 'syringe' | 'card'

/** A tube with no vacuum and no more room than this is filled drop by drop. */
const MICRO_mL = 1.3

/** The shape by what the plan tells of a tube: a plan does not keep of which kind its catalog row was. */
export function tubeShape(
  tube: Pick<PlannedTube, 'role' | 'additive' | 'fillsBy' | 'nominal_mL' | 'planned_mL'>,
): TubeShape {
  if (tube.role === 'culture') return 'bottle'
  if (tube.additive === 'filterPaper') return 'card'
  if (tube.additive === 'heparinBalanced') return 'syringe'
  return tube.fillsBy === 'mark' && plannedFill_mL(tube) <= MICRO_mL ? 'micro' : 'tube'
}
