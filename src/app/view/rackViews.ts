import type { PlannedTube } from '../../core/plan/plan.ts'
import { needsMixing, nextTube } from '../../core/protocol/facts.ts'
import type { DrawState, TubeProgress } from '../../core/protocol/state.ts'
import type { RackTubeView, TubeStatus } from './drawViewTypes.ts'
import type { Words } from '../site/words.ts'

/** The rack as it stands, in the order of the plan. `testName` gives the catalogue's name for a code. */
export function rackViews(
  s: DrawState,
  words: Words,
  testName: (code: string) => string,
): readonly RackTubeView[] {
  return s.plan.tubes.map((tube) => {
    const progress = s.tubes.find(({ id }) => id === tube.id)
    return rackView(tube, statusOf(s, progress), words, testName)
  })
}

/** One tube of a plan as the screens show it. */
export function rackView(
  tube: PlannedTube,
  status: TubeStatus,
  words: Words,
  testName: (code: string) => string,
): RackTubeView {
  return {
    id: tube.id,
    name: tube.name,
    role: tube.role,
    additive: tube.additive,
    closure: tube.closure,
    nominal_mL: tube.nominal_mL,
    least_mL: tube.least_mL,
    inversions: tube.inversions,
    fill: tube.fill,
    status,
    statusText: words.tubeStatus[status] ?? status,
    testNames: tube.tests.map(testName),
    handling: tube.handling.map((mark) => words.handling[mark] ?? mark),
    reason: tube.reason,
    ...(tube.lot === undefined ? {} : { lot: tube.lot }),
    ...(tube.expires === undefined ? {} : { expires: tube.expires }),
  }
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
