import { defined } from '../basics/defined.ts'
import { correctionOf } from '../flow/fillCorrection.ts'
import type { NeedleSet } from '../order/order.ts'
import { plannedFill_mL, type PlannedTube } from '../plan/plan.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { keptEntries } from '../protocol/keptEntries.ts'
import type { DrawFacts } from '../record/drawFacts.ts'
import { elapsed } from '../time/stamp.ts'
import { known_s } from './knownTime.ts'
import { setKey } from '../flow/setKey.ts'

/** One tube that drew itself full, and what was predicted of it, s. */
export interface FillMeasure {
  readonly set: string
  readonly gauge: number
  readonly nominal_mL: number
  readonly took_s: number
  /** As it was predicted in that draw. */
  readonly expected_s: number
  /** As it would have been predicted without the site's own correction. */
  readonly plain_s: number
  readonly where: 'early' | 'within' | 'late'
}

/** What is said of a tube where its time says nothing of the set. */
const DISTURBED: ReadonlySet<string> = new Set(['flowLost', 'noVacuum', 'veinRolled', 'noFlash'])

/**
 * Times of the tubes that a vacuum filled to their volume through a holder. A discard, a bottle, a tube that was filled
 * to a mark or from a syringe, a short one, and one under which the flow was lost say nothing of the set.
 */
export function fillMeasures(log: DrawLog, facts: DrawFacts): readonly FillMeasure[] {
  const predicted = predictedTubes(log)
  return facts.tubes.flatMap((fact): FillMeasure[] => {
    const { tube, on, off, fill, pulled } = fact
    const puncture = facts.punctures.find(({ number }) => number === fact.puncture)
    const set = puncture?.needleSet
    const plan = predicted.get(tube.id)
    if (!set || !plan || puncture.skin || pulled || fill !== 'full' || !drawsItself(plan)) return []
    if (facts.exceptions.some((each) => isAbout(each, fact.tube.id, on.at_ms, off?.at_ms)))
      return []
    const took_s = off && known_s(elapsed(on, off))
    if (took_s === undefined || took_s <= 0 || plan.fill.expected_s <= 0) return []
    const factor = correctionOf(facts.opened.fillCorrections, set)
    return [measureOf(set, plan, took_s, factor)]
  })
}

/** Of each tube as the plan had it when it went on: a later plan is for another needle. */
function predictedTubes(log: DrawLog): ReadonlyMap<string, PlannedTube> {
  let plan: readonly PlannedTube[] = []
  const predicted = new Map<string, PlannedTube>()
  for (const { event } of keptEntries(log.entries).kept) {
    if (event.type === 'drawOpened' || event.type === 'planRevised') plan = event.plan.tubes
    if (event.type !== 'tubeOn') continue
    const tube = plan.find(({ id }) => id === event.tubeId)
    if (tube) predicted.set(event.tubeId, tube)
    else predicted.delete(event.tubeId)
  }
  return predicted
}

const drawsItself = (tube: PlannedTube): boolean =>
  tube.role === 'specimen' &&
  (tube.fillsBy ?? 'vacuum') === 'vacuum' &&
  plannedFill_mL(tube) === tube.nominal_mL

const isAbout = (
  { kind, tubeId, at }: DrawFacts['exceptions'][number],
  id: string,
  on_ms: number,
  off_ms = Infinity,
): boolean =>
  DISTURBED.has(kind) &&
  (tubeId === undefined || tubeId === id) &&
  at.at_ms >= on_ms &&
  at.at_ms <= off_ms

function measureOf(set: NeedleSet, tube: PlannedTube, took_s: number, factor: number): FillMeasure {
  const { early_s, expected_s, late_s } = tube.fill
  const where = took_s < early_s ? 'early' : took_s > late_s ? 'late' : 'within'
  return defined({
    set: setKey(set),
    gauge: set.gauge,
    nominal_mL: tube.nominal_mL,
    took_s,
    expected_s,
    plain_s: expected_s / factor,
    where,
  })
}
