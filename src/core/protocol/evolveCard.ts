import { isCard } from '../plan/plan.ts'
import type { DrawEvent } from './events.ts'
import { planned } from './facts.ts'
import type { DrawState } from './state.ts'

/** Another card than the one that was looked at. */
export function uncheckedCard(
  state: DrawState,
  { tubeId }: Extract<DrawEvent, { type: 'tubeSwapped' }>,
): DrawState {
  const { cardChecked: _checked, ...rest } = state
  return isCard(planned(state, tubeId)) ? rest : state
}
