import type { Command } from '../protocol/commands.ts'
import type { DrawState } from '../protocol/state.ts'

type WhyRevised = Extract<Command, { type: 'revisePlan' }>['why']

/**
 * Why a command is followed by another plan: another way of collecting, a further needle and another set each have one.
 * @param from the way of collecting before it
 */
export function plansFurther(
  type: Command['type'],
  from: DrawState['collecting'],
  after: DrawState,
): readonly WhyRevised[] {
  return [
    ...(after.collecting === from
      ? []
      : [after.collecting ? ('backToSkin' as const) : ('fromVein' as const)]),
    ...(type === 'tryAgain' ? ['furtherNeedle' as const] : []),
    ...(type === 'chooseSet' || type === 'chooseSyringe' ? ['otherSet' as const] : []),
  ]
}
