import type { DrawLog } from '../../protocol/entry.ts'
import type { Plan } from '../../plan/plan.ts'

/** Every plan the draw had, with the entry that brought it. */
export function plansOf(log: DrawLog): readonly { readonly plan: Plan; readonly seq: number }[] {
  return log.entries.flatMap(({ event, seq }) =>
    event.type === 'drawOpened' || event.type === 'planRevised' ? [{ plan: event.plan, seq }] : [],
  )
}
