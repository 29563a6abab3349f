import { findTest, type Catalogue } from '../catalogue/catalogue.ts'
import type { Anticoagulant, Collector, Order, Patient } from '../order/order.ts'
import type { Fill, PlannedTube } from '../plan/plan.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { logSaysWrongPerson } from '../record/saysWrongPerson.ts'
import { pulledAt } from '../protocol/clocks.ts'
import { isSpun } from '../protocol/handled.ts'
import { replay } from '../protocol/evolve.ts'
import * as draw from '../protocol/facts.ts'
import { NOT_GONE_FAR, specimenWays, type SpecimenWay } from '../protocol/specimenWay.ts'
import { limit } from '../policy/policy.ts'
import type { Stamp } from '../time/stamp.ts'

/** Until when a test can be run with the tube as drawn. */
export interface TestLimit {
  readonly test: string
  readonly limit_min: number
}

/** One tube of one draw, with everything that the board, the packing and the manifest need. */
export interface BenchSpecimen {
  readonly drawId: string
  readonly tubeId: string
  /** As it stands on the label. */
  readonly number: string
  readonly patient: Patient
  readonly invented: boolean
  readonly order: Order
  readonly tube: PlannedTube
  /** When the blood left the patient; `off` is when it was in the tube. */
  readonly collected: Stamp
  readonly off: Stamp
  readonly fill?: Fill
  readonly anticoagulant: Anticoagulant
  readonly collector: Collector
  /** It is spun, for what the tube is or for a test in it that asks for plasma. */
  readonly isToSpin: boolean
  /** An addendum says that it is of another person than the label does: it goes no further. */
  readonly isOfAnother: boolean
  /** The draw is not closed. */
  readonly isOpen: boolean
  readonly limits: readonly TestLimit[]
  readonly separate_min: number
  readonly clotMost_min: number
  /** A card lies flat for so long. */
  readonly dry_h: number
  readonly driedFrom?: Stamp
  readonly dried?: Stamp
  readonly way: SpecimenWay
}

/**
 * The specimens of a draw, gone ones too. None where the identity did not match.
 * @throws RangeError when the log does not begin with the opening of a draw
 */
export function benchSpecimens(log: DrawLog, catalogue: Catalogue): readonly BenchSpecimen[] {
  const s = replay(log.entries)
  if (!draw.goesToLaboratory(s)) return []
  const all = draw.specimens(s)
  const { patient, order, invented, policy } = s.opened
  const { anticoagulant } = draw.answersOf(s)
  const isOfAnother = logSaysWrongPerson(s.kept)
  const ways = specimenWays(
    s.kept,
    all.map(({ id }) => id),
  )
  return all.flatMap((progress): readonly BenchSpecimen[] => {
    const { id, off, fill, handled, dried } = progress
    const tube = draw.planned(s, id)
    if (!tube || !off) return []
    const isHeparin = anticoagulant === 'heparin'
    const limits = tube.tests.flatMap((test): readonly TestLimit[] => {
      const row = findTest(catalogue, test)
      const limit_min =
        (isHeparin ? row?.timeLimitHeparin_min : undefined) ??
        row?.timeLimit_min ??
        (tube.timeLimitOf === test ? tube.timeLimit_min : undefined)
      return limit_min === undefined ? [] : [{ test, limit_min }]
    })
    return [
      {
        drawId: log.drawId,
        tubeId: id,
        number: draw.labelNumber(s, id),
        ...{ patient, invented, order, tube, anticoagulant, off },
        collected: pulledAt(s, progress) ?? off,
        ...(fill && { fill }),
        collector: s.collector,
        isToSpin: isSpun(tube) || asksForPlasma(tube, catalogue),
        isOfAnother,
        isOpen: s.closed === undefined,
        limits: [...limits].sort((a, b) => a.limit_min - b.limit_min),
        separate_min: limit(policy, 'separate_min'),
        clotMost_min: limit(policy, 'clotMost_min'),
        dry_h: limit(policy, 'cardDry_h'),
        ...(handled?.dryFlat && { driedFrom: handled.dryFlat }),
        ...(dried && { dried }),
        way: ways.get(id) ?? NOT_GONE_FAR,
      },
    ]
  })
}

/** Whole blood and plasma may come out of like tubes: the catalog says which a test is run on. */
const asksForPlasma = ({ role, additive, tests }: PlannedTube, catalogue: Catalogue): boolean =>
  role === 'specimen' &&
  tests.some((test) => {
    const need = findTest(catalogue, test)?.accepts.find((each) => each.additive === additive)
    return need?.kind === 'plasma' || need?.kind === 'serum'
  })
