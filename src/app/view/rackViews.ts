import { plannedFill_mL } from '../../core/plan/plan.ts'
import { needsMixing, nextTube } from '../../core/protocol/facts.ts'
import type { DrawState, TubeProgress } from '../../core/protocol/state.ts'
import type { TubeStatus, Words } from '../site/words.ts'
import type { RackTubeView } from './drawViewTypes.ts'

/** The rack as it stands, in the order of the plan. */
export function rackViews(s: DrawState, words: Words): readonly RackTubeView[] {
  return s.plan.tubes.map(({ id, name, closure, ...tube }) => {
    const fill_mL = plannedFill_mL(tube)
    const status = statusOf(
      s,
      s.tubes.find((tube) => tube.id === id),
    )
    return { id, name, closure, fill_mL, status, statusText: words.tubeStatus[status] }
  })
}

function statusOf(s: DrawState, tube: TubeProgress | undefined): TubeStatus {
  if (!tube) return 'waiting'
  if (s.tubeOn === tube.id) return 'on'
  if (tube.off) {
    if (tube.fill === 'empty') return 'empty'
    if (needsMixing(s, tube)) return 'mix'
    return tube.fill === 'short' ? 'short' : 'mixed'
  }
  const over = s.closed !== undefined || s.noMore
  if (over) return 'leftOut'
  return nextTube(s)?.id === tube.id ? 'next' : 'waiting'
}
