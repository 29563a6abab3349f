import { defined } from '../../core/basics/defined.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { ARMS } from '../../core/order/order.ts'
import { armClosedBy, isCapillary, isForbidden } from '../../core/protocol/facts.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { stepOf, type StepId } from '../../core/protocol/steps.ts'
import type { ArmView } from './drawViewTypes.ts'
import type { ViewTexts } from './viewTexts.ts'

/** Steps that ask for an arm, and the one that asks for a vein on it. */
const ASKS_ARM: ReadonlySet<StepId> = new Set(['find', 'site'])

/**
 * The arms that a step is about, the left first: both while one is to be chosen, the chosen one while a vein is;
 * hands or feet while the side of a finger or heel is; `undefined` at any other step.
 */
export function armViews(s: DrawState, from: ViewTexts): readonly ArmView[] | undefined {
  const { id } = stepOf(s)
  if (isCapillary(s)) return id === 'side' ? ARMS.map((arm) => armView(s, arm, from)) : undefined
  if (ASKS_ARM.has(id)) return ARMS.map((arm) => armView(s, arm, from))
  const { arm } = s.puncture
  return id === 'vein' && arm ? [armView(s, arm, from)] : undefined
}

function armView(s: DrawState, arm: ArmView['arm'], { words, texts }: ViewTexts): ArmView {
  const why = armClosedBy(s, arm)
  const { closed, allowed } = texts.pictures.arms
  return defined({
    arm,
    name: words.commands[`${s.collecting ? 'chooseSide' : 'chooseArm'}:${arm}`],
    skin: s.collecting,
    closed:
      why && fillText(isForbidden(s, arm) ? closed : allowed, { why: texts.draw.restriction[why] }),
  })
}
