import { defined } from '../../core/basics/defined.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { plannedFill_mL, type PlannedTube } from '../../core/plan/plan.ts'
import { limit } from '../../core/policy/policy.ts'
import { isCapillary, needsMixing, nextTube, planned } from '../../core/protocol/facts.ts'
import { isShortFill } from '../../core/protocol/sharedPredicates.ts'
import { hasSyringe } from '../../core/protocol/syringe.ts'
import type { DrawState, TubeProgress } from '../../core/protocol/state.ts'
import { elapsed, stampAfter, type Reading } from '../../core/time/stamp.ts'
import type { TubeStatus } from '../site/words.ts'
import type { FillingView, RackTubeView } from './drawViewTypes.ts'
import { tubeShape } from './tubeShape.ts'
import type { ViewTexts } from './viewTexts.ts'

type RackTexts = Pick<ViewTexts, 'words' | 'texts' | 'shortTestName'>

/** The rack as it stands, in the order of the plan. */
export function rackViews(s: DrawState, now: Reading, from: RackTexts): readonly RackTubeView[] {
  const { words, texts } = from
  return s.plan.tubes.map((tube, i) => {
    const progress = s.tubes.find(({ id }) => id === tube.id)
    const status = statusOf(s, progress)
    const { id, name, closure, nominal_mL, least_mL } = tube
    return defined({
      ...{ id, name, closure, nominal_mL, least_mL },
      fill_mL: plannedFill_mL(tube),
      status,
      statusText: words.tubeStatus[status],
      number: i + 1,
      tests: testsOf(tube, from),
      // The skin is another matter than the tube.
      handling: tube.handling
        .filter((mark) => mark !== 'noAlcohol')
        .map((mark) => ({ mark, words: texts.pictures.rack.handling[mark] })),
      isRedrawn: (progress?.swaps ?? 0) > 0,
      isDiscard: tube.role === 'discard',
      shape: tubeShape(tube),
      blood_mL: bloodIn(tube, progress),
      filling: fillingOf(s, tube, progress, now),
    })
  })
}

/** More than these do not fit below a tube. */
const NAMED_n = 2

function testsOf({ tests, role, name }: PlannedTube, { texts, shortTestName }: RackTexts): string {
  const { rack } = texts.pictures
  if (tests.length === 0) return role === 'discard' ? rack.discard : name
  const names = tests.slice(0, NAMED_n).map(shortTestName).join(', ')
  const more = tests.length - NAMED_n
  return more > 0 ? fillText(rack.andMore, { tests: names, more }) : names
}

function bloodIn(tube: PlannedTube, progress: TubeProgress | undefined): number | undefined {
  if (!progress?.off || progress.fill === 'empty') return 0
  return progress.fill === 'full' ? plannedFill_mL(tube) : progress.estimate_mL
}

/** After these, said by a person, the clock knows nothing of the level any more. */
const HOLDS = ['flowLost', 'slowFlow', 'veinRolled', 'noFlash'] as const

function fillingOf(
  s: DrawState,
  { id, fillsBy, fill }: PlannedTube,
  progress: TubeProgress | undefined,
  now: Reading,
): FillingView | undefined {
  const on = progress?.on
  if (s.tubeOn !== id || !on || fillsBy === 'mark' || isCapillary(s)) return undefined
  if (hasSyringe(s)) return undefined
  const held = s.exceptions.find(({ kind, noticed }) => !noticed && HOLDS.some((k) => k === kind))
  const until = held && held.at.at_ms > on.at_ms ? held.at : stampAfter(s.last.at, now)
  return {
    id: `${id}@${on.at_ms}`,
    elapsed_ms: held && held.at.at_ms <= on.at_ms ? 0 : elapsed(on, until).least_ms,
    length_ms: fill.expected_s * 1000,
    isHeld: held !== undefined,
  }
}

function statusOf(s: DrawState, tube: TubeProgress | undefined): TubeStatus {
  if (!tube) return 'waiting'
  if (s.tubeOn === tube.id) return 'on'
  if (tube.off) {
    if (tube.fill === 'empty') return 'empty'
    if (needsMixing(s, tube)) return 'mix'
    const circles_n = limit(s.opened.policy, 'cardCircles_n')
    return isShortFill(planned(s, tube.id), tube, circles_n) ? 'short' : 'mixed'
  }
  const over = s.closed !== undefined || s.noMore
  if (over) return 'leftOut'
  return nextTube(s)?.id === tube.id ? 'next' : 'waiting'
}
