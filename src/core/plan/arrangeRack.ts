import { defined } from '../basics/defined.ts'
import { compareDraw, compareDrops } from '../catalogue/orderOfDraw.ts'
import { fillWindow, type FlowConditions } from '../flow/fillWindow.ts'
import { lineVolume_mL } from '../flow/lineVolume.ts'
import type { Preparation } from '../order/order.ts'
import type { ChosenTube } from './chosen.ts'
import { leastFill_mL } from './citrate.ts'
import { chooseDiscard, needsDiscard } from './discardTube.ts'
import { explainDiscard, explainTube } from './explainTube.ts'
import type { Handling } from '../catalogue/handling.ts'
import type { PlannedTube } from './plan.ts'
import type { PlanInput } from './planInput.ts'
import { isForDrops } from './tubesForAge.ts'
import { fillOf_mL, lotTaker, type UsableTube } from './usableStock.ts'

/** Where a rack begins: a fresh draw, or what an earlier needle has left. */
export interface RackStart {
  /** Number of the next tube: 1 for a fresh draw. */
  readonly nextNumber: number
  /** True when blood already stands in the line in use. */
  readonly linePrimed: boolean
  /** Drop by drop from the skin: an order of its own, and no vacuum. */
  readonly drops?: boolean
}

export interface Rack {
  readonly tubes: readonly PlannedTube[]
  /** True when a discard tube is needed and there is none. */
  readonly discardMissing: boolean
  /** Which first tube would take the tubing's air. */
  readonly air: 'citrate' | 'other'
}

/** Puts the chosen tubes in order of draw, with a discard tube in front where one is needed. */
export function arrangeRack(
  chosen: readonly ChosenTube[],
  stock: readonly UsableTube[],
  flow: FlowConditions,
  preparation: Preparation,
  start: RackStart,
  texts: PlanInput['texts'],
): Rack {
  const compare = start.drops ? compareDrops : compareDraw
  const ordered = [...chosen].sort(
    (a, b) =>
      compare(a.usable.tube.additive, b.usable.tube.additive) ||
      b.tests.length - a.tests.length ||
      b.usable.tube.nominal_mL - a.usable.tube.nominal_mL ||
      a.usable.tube.code.localeCompare(b.usable.tube.code) ||
      (a.tests[0]?.code ?? '').localeCompare(b.tests[0]?.code ?? ''),
  )
  const lots = lotTaker(stock)
  const specimens = ordered.map((tube) =>
    specimenTube(tube, lots.take, flow, preparation, start, texts),
  )
  const needed = !start.drops && !start.linePrimed && needsDiscard(flow.needleSet, ordered[0])
  const discard = needed ? chooseDiscard(stock, lots.left) : undefined
  const tubes = discard
    ? [discardTube(discard, ordered[0], lots.take, flow, texts), ...specimens]
    : specimens
  return {
    tubes: tubes.map((tube, i) => ({ ...tube, id: `t${start.nextNumber + i}` })),
    discardMissing: needed && !discard,
    air: ordered[0]?.usable.tube.additive === 'citrate' ? 'citrate' : 'other',
  }
}

/** In how long drops or a syringe fill a tube nobody can foretell. */
const NO_WINDOW = { early_s: 0, expected_s: 0, late_s: 0, trusted: false } as const

type Take = ReturnType<typeof lotTaker>['take']

function fromLabel(usable: UsableTube, take: Take, flow: FlowConditions) {
  const { tube, part_mL } = usable
  const lot = take(tube.code)
  return defined({
    id: '',
    tubeCode: tube.code,
    name: tube.name,
    additive: tube.additive,
    closure: tube.closure,
    nominal_mL: tube.nominal_mL,
    planned_mL: part_mL,
    inversions: { min: tube.inversionsMin, max: tube.inversionsMax },
    fill: fillWindow(flow, tube, fillOf_mL(usable)),
    lot: lot?.lot,
    expires: lot?.expires,
  })
}

function specimenTube(
  chosen: ChosenTube,
  take: Take,
  flow: FlowConditions,
  { anticoagulant }: Preparation,
  { drops }: RackStart,
  texts: PlanInput['texts'],
): PlannedTube {
  const { usable, tests } = chosen
  const { tube } = usable
  const role: PlannedTube['role'] = tube.additive.startsWith('culture') ? 'culture' : 'specimen'
  const [limit] = tests
    .flatMap((test) => {
      const heparin = anticoagulant === 'heparin' ? test.timeLimitHeparin_min : undefined
      const limit_min = heparin ?? test.timeLimit_min
      return limit_min === undefined ? [] : [{ limit_min, of: test.code }]
    })
    .sort((a, b) => a.limit_min - b.limit_min)
  return defined({
    ...fromLabel(usable, take, flow),
    role,
    fillsBy: tube.fillsBy,
    least_mL: leastFill_mL(tube),
    tests: tests.map((test) => test.code),
    needs_mL: chosen.needs_mL,
    dead_mL: tube.dead_mL,
    handling: handlingOf(tests),
    clot_min: tube.clot_min,
    timeLimit_min: limit?.limit_min,
    timeLimitOf: limit?.of,
    ...((drops || flow.needleSet.syringe_mL !== undefined || isForDrops(tube)) && {
      fill: NO_WINDOW,
    }),
    reason: explainTube(chosen, texts, drops),
  })
}

/** Every mark of the tests once; that ice helps is said only where nothing asks for it. */
function handlingOf(tests: ChosenTube['tests']): readonly Handling[] {
  const marks = new Set<Handling>(tests.flatMap((test) => test.handling))
  if (marks.has('ice')) marks.delete('coolOptional')
  return [...marks].sort()
}

function discardTube(
  usable: UsableTube,
  first: ChosenTube | undefined,
  take: Take,
  flow: FlowConditions,
  texts: PlanInput['texts'],
): PlannedTube {
  const line = Math.ceil(lineVolume_mL(flow.needleSet) * 10) / 10
  return {
    ...fromLabel(usable, take, flow),
    role: 'discard',
    least_mL: Math.min(line, usable.tube.nominal_mL),
    tests: [],
    handling: [],
    reason: explainDiscard(flow.needleSet, first, texts),
  }
}
